"""Ask a job to stop: at once if it waits, at its next step if it runs."""

from models.services.settle import settle_subject
from models.store.records import JobRecord, ShopId
from models.store.states import JobState
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Conflict


def cancel_job(work: UnitOfWork, shop: ShopId, job_id: str) -> JobRecord:
    """Cancel a job; Conflict if it has ended already."""
    before = work.jobs.require(shop, job_id)
    if before.state not in (JobState.QUEUED, JobState.RUNNING):
        raise Conflict(f"This job is {before.state} already.")
    after = work.jobs.cancel(shop, job_id)
    if after.state is JobState.CANCELLED:
        settle_subject(work, shop, after.kind, after.subject_id, "Cancelled.")
    return after
