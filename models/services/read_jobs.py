"""Jobs as a shop sees them."""

from models.store.records import JobRecord, Page, ShopId
from models.store.unit_of_work import UnitOfWork


def read_jobs(work: UnitOfWork, shop: ShopId, limit: int = 50, cursor: str | None = None) -> Page[JobRecord]:
    """Jobs, newest first; Rejected if the cursor is not one of ours."""
    return work.jobs.page(shop, limit, cursor)


def read_job(work: UnitOfWork, shop: ShopId, job_id: str) -> JobRecord:
    """One job; NotFound if the shop has none such."""
    return work.jobs.require(shop, job_id)


def get_latest_job(work: UnitOfWork, shop: ShopId, subject_id: str) -> JobRecord | None:
    """The newest job of an import, a model version or a lot, None where they were pruned."""
    return work.jobs.get_latest_of(shop, subject_id)
