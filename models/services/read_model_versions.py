"""Model versions as a shop sees them."""

from models.store.records import ModelVersionRecord, Page, ShopId
from models.store.unit_of_work import UnitOfWork


def read_model_versions(
    work: UnitOfWork, shop: ShopId, limit: int = 50, cursor: str | None = None
) -> Page[ModelVersionRecord]:
    """Model versions, newest first."""
    return work.models.page(shop, limit, cursor)


def read_model_version(work: UnitOfWork, shop: ShopId, number: int) -> ModelVersionRecord:
    """One model version; NotFound if the shop has none such."""
    return work.models.require(shop, number)


def get_active_model(work: UnitOfWork, shop: ShopId) -> ModelVersionRecord | None:
    """The model version in use, None before the first."""
    number = work.models.get_active_number(shop)
    return None if number is None else work.models.require(shop, number)
