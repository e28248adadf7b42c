"""Lots as a shop sees them."""

from models.store.records import LotRecord, Page, ShopId
from models.store.unit_of_work import UnitOfWork


def read_lots(work: UnitOfWork, shop: ShopId, limit: int = 50, cursor: str | None = None) -> Page[LotRecord]:
    """Lots, newest first; Rejected if the cursor is not one of ours."""
    return work.lots.page(shop, limit, cursor)


def read_lot(work: UnitOfWork, shop: ShopId, lot_id: str) -> LotRecord:
    """One lot; NotFound if the shop has none such."""
    return work.lots.require(shop, lot_id)
