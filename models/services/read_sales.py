"""Sold history as a shop sees it."""

from models.store.records import Page, SaleRecord, ShopId
from models.store.unit_of_work import UnitOfWork


def read_sales(work: UnitOfWork, shop: ShopId, limit: int = 50, cursor: str | None = None) -> Page[SaleRecord]:
    """Sales in the order of their imports and rows; Rejected if the cursor is not one of ours."""
    return work.sales.page(shop, limit, cursor)


def count_sales(work: UnitOfWork, shop: ShopId) -> int:
    """Rows of sold history, unsold listings included."""
    return work.sales.count(shop)
