"""Imports of sold history as a shop sees them."""

from models.store.records import ImportRecord, Page, ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.problems import Caution


def read_imports(work: UnitOfWork, shop: ShopId, limit: int = 50, cursor: str | None = None) -> Page[ImportRecord]:
    """Imports, newest first; Rejected if the cursor is not one of ours."""
    return work.imports.page(shop, limit, cursor)


def read_shop_cautions(work: UnitOfWork, shop: ShopId) -> tuple[Caution, ...]:
    """What all files of a shop together leave unsaid."""
    return work.imports.shop_cautions(shop)


def read_import(work: UnitOfWork, shop: ShopId, import_id: str) -> ImportRecord:
    """One import; NotFound if the shop has none such."""
    return work.imports.require(shop, import_id)
