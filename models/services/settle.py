"""A job ended without its result: what its subject says then."""

from models.store.records import ShopId
from models.store.states import JobKind
from models.store.unit_of_work import UnitOfWork


def settle_subject(work: UnitOfWork, shop: ShopId, kind: JobKind, subject_id: str, reason: str) -> None:
    """Mark the subject failed with a reason; a lot that has an evaluation keeps it and stays ready.

    A model version that could not be tested is as good as before: its job says why.
    """
    match kind:
        case JobKind.IMPORT_SALES:
            work.imports.fail(shop, subject_id, reason)
        case JobKind.TRAIN_MODEL:
            work.models.fail(shop, subject_id, reason)
        case JobKind.EVALUATE_LOT:
            work.lots.fail(shop, subject_id, reason)
        case JobKind.BACKTEST:
            pass
