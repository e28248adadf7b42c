"""What was wrong with a file's rows."""

from models.store.records import Page, ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.problems import RowProblem


def read_import_problems(
    work: UnitOfWork, shop: ShopId, import_id: str, limit: int = 50, cursor: str | None = None
) -> Page[RowProblem]:
    """Problems of a sold history in the file's order; counts stand in the import's `file`."""
    return work.uploads.problems(shop, work.imports.require_upload(shop, import_id).id, limit, cursor)


def read_lot_problems(
    work: UnitOfWork, shop: ShopId, lot_id: str, limit: int = 50, cursor: str | None = None
) -> Page[RowProblem]:
    """Problems of a manifest in the file's order; counts stand in the lot's `file`."""
    return work.uploads.problems(shop, work.lots.require_upload(shop, lot_id).id, limit, cursor)
