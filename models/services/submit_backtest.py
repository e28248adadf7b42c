"""Queue the test of a model version on the shop's own past; it is in use meanwhile."""

from collections.abc import Sequence

from models.store.records import JobRecord, ShopId
from models.store.states import JobKind, Queue
from models.store.unit_of_work import UnitOfWork


def submit_backtest(work: UnitOfWork, shop: ShopId, version_id: str, imports: Sequence[str]) -> JobRecord:
    """A job on the same sales, under the shop's settings as they stand now."""
    given = {"currency": work.shops.require(shop).currency} | work.settings.get(shop).given
    payload = {"imports": list(imports), "given": given}
    return work.jobs.queue(shop, JobKind.BACKTEST, Queue.LONG, version_id, payload)
