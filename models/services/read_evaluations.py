"""Evaluations of a lot."""

from models.store.records import EvaluationRecord, EvaluationSummary, Page, ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.errors import NotFound


def read_evaluation(work: UnitOfWork, shop: ShopId, lot_id: str) -> EvaluationRecord:
    """The lot's current evaluation; NotFound if it has none yet."""
    lot = work.lots.require(shop, lot_id)
    if lot.evaluation_id is None:
        raise NotFound("This lot has no evaluation yet.")
    return work.evaluations.require(shop, lot.evaluation_id)


def read_evaluations(
    work: UnitOfWork, shop: ShopId, lot_id: str, limit: int = 50, cursor: str | None = None
) -> Page[EvaluationSummary]:
    """All evaluations of a lot, newest first."""
    return work.evaluations.page(shop, work.lots.require(shop, lot_id), limit, cursor)
