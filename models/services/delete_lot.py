"""Forget a lot with everything that hangs on it."""

from models.store.records import ShopId
from models.store.unit_of_work import UnitOfWork


def delete_lot(work: UnitOfWork, shop: ShopId, lot_id: str) -> None:
    """Delete a lot, its manifest, lines and evaluations; its jobs are asked to stop.  NotFound if there is none."""
    work.lots.require(shop, lot_id)
    work.jobs.cancel_of(shop, lot_id)
    work.lots.delete(shop, lot_id)
