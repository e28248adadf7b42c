"""When does the cash come back?  The cash curve and the payback in the contract's form, at the ceiling or, on a pass,
at a bid of nothing.
"""

from dataclasses import asdict
from typing import Any

from models.appraisal.judge import Decision
from models.appraisal.stored import Stored
from models.appraisal.written import money
from models.decide.cash_curve import WeeklyTable, cash_curve, payback
from models.decide.terms import cash_out
from models.values.money import whole_minor
from models.values.settings import Settings


def told_weeks(stored: Stored, decision: Decision) -> WeeklyTable | None:
    """The weekly cash, unless it was drawn under another rivals' shade than the decision's."""
    table = stored.weeks
    return table if table is not None and table.shade == decision.shade else None


def curve_document(table: WeeklyTable, decision: Decision, settings: Settings) -> list[dict[str, Any]]:
    """Cumulative cash by week with the cash out paid in week 0, in major units."""
    at = decision.at_ceiling
    paid = float(whole_minor(cash_out(0.0, settings.buying, settings.lot.pallets))) if at is None else at.cash_out
    return [
        {"week": point.week} | {name: money(getattr(point, name), settings.currency) for name in ("p10", "p50", "p90")}
        for point in cash_curve(table, paid)
    ]


def payback_document(table: WeeklyTable, paid: float) -> dict[str, int | None]:
    """Weeks until `paid` [minor units] is back, null beyond the horizon."""
    return asdict(payback(table, paid))
