"""What does the page of a lot show?  The ceiling first where there is one, else what is needed to get there."""

from typing import Any, Final

from api.http.pages.columns import lines_question
from api.http.pages.setting_fields import OF_A_BUY, OF_ONE_LOT, Field, fields_of
from api.http.pages.training_job import training_job
from models.services.read_evaluations import read_evaluation
from models.services.read_jobs import get_latest_job
from models.services.read_lines import LinesAsked, read_lines
from models.services.read_lots import read_lot
from models.services.read_problems import read_lot_problems
from models.services.shop_settings import read_settings
from models.store.records import JobRecord, LotRecord, ShopRecord
from models.store.states import FileState, JobState
from models.store.unit_of_work import UnitOfWork
from models.values.given import Given

SORTS: Final = (
    ("-cash_proceeds", "what it brings"), ("no", "number"), ("-quantity", "units"), ("-unit_price_mean", "price each"),
    ("-share_sold", "surest to sell"), ("-listing_minutes", "minutes"), ("action", "what to do"),
    ("sales_like_it", "least known"),
)  # fmt: skip
LINES_SHOWN: Final = 50
PROBLEMS_SHOWN: Final = 20


def lot_view(work: UnitOfWork, held: ShopRecord, lot_id: str, sort: str, cursor: str | None) -> dict[str, Any]:
    """Everything its template needs."""
    lot = read_lot(work, held.id, lot_id)
    problems = read_lot_problems(work, held.id, lot_id, PROBLEMS_SHOWN)
    return {
        "lot": lot,
        "currency": held.currency,
        "zone": held.time_zone,
        "job": running_job(work, held, lot),
        "question": lines_question(lot.filename, lot.file),
        "problems": problems,
        "fields": lot_fields(work, held, lot.given),
    } | _evaluated(work, held, lot, sort, cursor)


def _evaluated(work: UnitOfWork, held: ShopRecord, lot: LotRecord, sort: str, cursor: str | None) -> dict[str, Any]:
    if lot.evaluation_id is None:
        return {}
    lines = read_lines(work, held.id, lot.id, LinesAsked(sort=sort, limit=LINES_SHOWN, cursor=cursor))
    return {
        "evaluation": read_evaluation(work, held.id, lot.id),
        "lines": lines,
        "sort": sort,
        "sorts": SORTS,
    }


def running_job(work: UnitOfWork, held: ShopRecord, lot: LotRecord) -> JobRecord | None:
    """The job that works on the lot now, or on the model it waits for."""
    waits = lot.state is FileState.NEEDS_MODEL
    job = training_job(work, held.id) if waits else get_latest_job(work, held.id, lot.id)
    return job if job is not None and job.state in (JobState.QUEUED, JobState.RUNNING) else None


def lot_fields(work: UnitOfWork, held: ShopRecord, given: Given) -> list[Field]:
    """Settings that are about this lot and how it is bought."""
    in_force = {one.key: one for one in read_settings(work, held.id).in_force}
    return fields_of((*OF_ONE_LOT, *OF_A_BUY), given, in_force, held.currency, held.time_zone)
