"""What does the page of a lot show?  The ceiling first where there is one, else what is needed to get there."""

import datetime as dt
from dataclasses import dataclass
from typing import Any, Final

from api.http.pages.asking import form_of
from api.http.pages.cautions import parted
from api.http.pages.check_first import check_first
from api.http.pages.columns import lines_question
from api.http.pages.fixed_view import fixed_view
from api.http.pages.learning import GOING, learning
from api.http.pages.line_view import look_ups
from api.http.pages.setting_fields import OF_A_BUY, OF_ONE_LOT, Field, fields_of
from api.http.pages.stated_words import stated_words
from api.http.pages.what_if_fields import what_if_fields
from models.services.backtest_words import backtest_line
from models.services.clock import local_date, utc_now
from models.services.lot_charts import lot_charts
from models.services.read_evaluations import read_evaluation
from models.services.read_jobs import get_latest_job
from models.services.read_lines import LinesAsked, read_lines
from models.services.read_lots import read_lot
from models.services.read_model_versions import read_model_version
from models.services.read_problems import read_lot_problems
from models.services.shop_settings import read_settings
from models.services.staleness import is_stale
from models.store.records import EvaluationRecord, LotRecord, ShopRecord
from models.store.states import FileState
from models.store.unit_of_work import UnitOfWork
from models.values.given import Given

SORTS: Final = (
    ("-cash_proceeds", "what it brings"), ("no", "number"), ("-quantity", "units"), ("-unit_price_mean", "price each"),
    ("-share_sold", "surest to sell"), ("-listing_minutes", "minutes"), ("action", "what to do"),
    ("sales_like_it", "least known"),
)  # fmt: skip
LINES_SHOWN: Final = 50
MOST_LINES: Final = 500  # on one page, for paper; no list of ours is longer
PROBLEMS_SHOWN: Final = 20
CANCELLED: Final = "Cancelled."  # what a lot says whose job was stopped


@dataclass(frozen=True)
class LinesShown:
    """Which lines of the lot, and in what order."""

    sort: str = SORTS[0][0]
    filter: str = ""
    cursor: str | None = None
    whole: bool = False  # on one page, for paper

    def asked(self) -> LinesAsked:
        """As the service takes it."""
        return LinesAsked(self.sort, self.filter, MOST_LINES if self.whole else LINES_SHOWN, self.cursor)


def lot_view(work: UnitOfWork, held: ShopRecord, lot_id: str, shown: LinesShown) -> dict[str, Any]:
    """Everything its template needs."""
    lot = read_lot(work, held.id, lot_id)
    problems = read_lot_problems(work, held.id, lot_id, PROBLEMS_SHOWN)
    learns = learning(work, held.id)
    latest = learns.job if lot.state is FileState.NEEDS_MODEL else get_latest_job(work, held.id, lot.id)
    return {
        "lot": lot,
        "currency": held.currency,
        "zone": held.time_zone,
        "learning": learns,
        "job": latest if latest is not None and latest.state in GOING else None,
        "is_cancelled": lot.error == CANCELLED,
        "asking": form_of(lines_question(lot.filename, lot.file)),
        "problems": problems,
        "totals": stated_words(lot.file, held.currency),
        "fields": lot_fields(work, held, lot.given),
    } | _evaluated(work, held, lot, shown)


def _evaluated(work: UnitOfWork, held: ShopRecord, lot: LotRecord, shown: LinesShown) -> dict[str, Any]:
    if lot.evaluation_id is None:
        return {}
    lines = read_lines(work, held.id, lot.id, shown.asked())
    evaluation = read_evaluation(work, held.id, lot.id)
    now = utc_now()
    return {
        "evaluation": evaluation,
        "is_over": is_over(evaluation.document["lot"].get("closes_at"), now),
        "now": now,
        "day": judged_day(lot, evaluation, local_date(held.time_zone)),
        "stale": is_stale(work, held.id, lot),
        "cautions": parted(evaluation.document.get("cautions", ())),
        "check_first": check_first(work, held, lot.id, evaluation),
        "look_ups": look_ups(work, held, lot.id, evaluation),
        "charts": lot_charts(evaluation.document),
        "asks": what_if_fields(work, held, evaluation),
        "lines": lines,
        "shown": shown,
        "sorts": SORTS,
        "most_lines": MOST_LINES,
        "honest": _honest(work, held, evaluation),
    } | fixed_view(work, held, lot, evaluation)


@dataclass(frozen=True)
class JudgedDay:
    """The day that an evaluation is about beside today, and the day that was fixed for the lot, if one was."""

    judged: dt.date
    today: dt.date
    fixed: dt.date | None

    @property
    def offers_today(self) -> bool:
        """What is shown is about another day."""
        return self.judged != self.today

    @property
    def offers_fixed(self) -> dt.date | None:
        """The fixed day, where valuing it again plainly would go back to it."""
        return self.fixed if self.fixed != self.judged else None


def judged_day(lot: LotRecord, evaluation: EvaluationRecord, today: dt.date) -> JudgedDay:
    """Which day the page is about, and which other one it can offer."""
    return JudgedDay(evaluation.as_of, today, lot.as_of)


def _honest(work: UnitOfWork, held: ShopRecord, evaluation: EvaluationRecord) -> str:
    """How near the version that it was valued with would have been; blank before that is known."""
    backtest = read_model_version(work, held.id, evaluation.model_version).backtest
    return backtest_line(backtest) if backtest else ""


def is_over(closes_at: str | None, now: dt.datetime) -> bool:
    """Bidding has ended; never where nobody said when it ends."""
    return bool(closes_at) and dt.datetime.fromisoformat(str(closes_at)) < now


def lot_fields(work: UnitOfWork, held: ShopRecord, given: Given) -> list[Field]:
    """Settings that are about this lot and how it is bought."""
    in_force = {one.key: one for one in read_settings(work, held.id).in_force}
    return fields_of((*OF_ONE_LOT, *OF_A_BUY), given, in_force, held.currency, held.time_zone)
