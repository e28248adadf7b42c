"""The decision part of an answer in the contract's form: what an evaluation says and what a what-if says alike."""

from dataclasses import asdict
from typing import Any

from models.appraisal.cash_document import curve_document, payback_document, told_weeks
from models.appraisal.in_the_way import in_the_way
from models.appraisal.judge import HOUR_DIGITS, Decision
from models.appraisal.stored import Stored
from models.appraisal.what_would_change import what_would_change
from models.appraisal.written import money
from models.decide.backlog import BacklogEffect, Clearing
from models.decide.ceiling import Ceiling
from models.decide.components import Components
from models.decide.figures import BidFigures
from models.decide.quantiles import money_spread, spread
from models.values.arrays import FloatArray
from models.values.settings import Settings


def decision_document(stored: Stored, decision: Decision, settings: Settings) -> dict[str, Any]:
    """Ceiling, figures at it, proceeds, hours, backlog and bid curve."""
    currency = settings.currency
    at, weeks = decision.at_ceiling, told_weeks(stored, decision)
    told: dict[str, Any] = {
        "bid_ceiling": _ceiling(decision.ceiling, settings, decision.shade)
        | {
            "in_the_way": in_the_way(decision.ceiling, settings),
            "what_would_change": what_would_change(stored, settings, decision),
        },
        "at_ceiling": None if at is None else _figures(at, currency),
        "cash_proceeds": _spread(decision.draws.cash, currency),
        "proceeds_after_pay": _spread(decision.draws.after_pay, currency),
        "hours": _hours(stored.components),
        "backlog": _backlog(decision.backlog),
        "bid_curve": [{"bid": money(point.bid, currency)} | _curve(point, currency) for point in decision.curve],
    }
    if weeks is not None:
        told["cash_curve"] = curve_document(weeks, decision, settings)
        if at is not None:
            told["at_ceiling"]["payback_weeks"] = payback_document(weeks, at.cash_out)
    return told


def _ceiling(ceiling: Ceiling, settings: Settings, shade: float) -> dict[str, Any]:
    currency, left = settings.currency, ceiling.steps_left
    return {
        "verdict": ceiling.verdict,
        "amount": money(ceiling.amount, currency),
        "unrounded": money(ceiling.unrounded, currency),
        "binding_rule": ceiling.binding_rule,
        "by_rule": {rule: None if bid is None else money(bid, currency) for rule, bid in ceiling.by_rule.items()},
        "room": asdict(ceiling.room),
        "rivals": {"count": settings.rivals_count, "shade": round(1.0 - shade, 6)},
        "steps_left": None
        if left is None
        else {"steps": left.steps, "next_step_cash": money(left.next_step_cash, currency)},
    }


def _figures(point: BidFigures, currency: str) -> dict[str, Any]:
    return _curve(point, currency) | {
        "expected_cash_gain": money(point.expected_cash_gain, currency),
        "profit_per_hour": None if point.profit_per_hour is None else money(point.profit_per_hour, currency),
    }


def _curve(point: BidFigures, currency: str) -> dict[str, Any]:
    back = point.return_on_cash
    return {
        "cash_out": money(point.cash_out, currency),
        "chance_of_cash_loss": round(point.chance_of_cash_loss, 6),
        "chance_below_pay": round(point.chance_below_pay, 6),
        "expected_profit": money(point.expected_profit, currency),
        "return_on_cash": None if back is None else round(back, 6),
    }


def _spread(draws: FloatArray, currency: str) -> dict[str, Any]:
    return {name: money(amount, currency) for name, amount in asdict(money_spread(draws)).items()}


def _hours(total: Components) -> dict[str, Any]:
    kinds = {"sorting": total.minutes_sorting, "listing": total.minutes_listing, "packing": total.minutes_packing}
    told = {}
    for kind, minutes in kinds.items():
        hours = spread(minutes / 60.0)
        told[kind] = {name: round(getattr(hours, name), HOUR_DIGITS) for name in ("mean", "p10", "p90")}
    return told


def _backlog(effect: BacklogEffect) -> dict[str, Any]:
    return {
        "before": _clearing(effect.before),
        "after": _clearing(effect.after),
        "extra_weeks": effect.extra_weeks,
        "peak_hours": effect.peak_hours,
        "weekly": [asdict(week) for week in effect.weekly],
    }


def _clearing(clearing: Clearing) -> dict[str, Any]:
    return asdict(clearing) | {"clears_on": None if clearing.clears_on is None else clearing.clears_on.isoformat()}
