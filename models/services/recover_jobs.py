"""Recover work that nobody does: jobs of workers that died, jobs whose wake-up was lost."""

from models.services.settle import settle_subject
from models.store.states import JobState, Queue
from models.store.unit_of_work import MOST_ATTEMPTS, Publish, Store, UnitOfWork


def recover_jobs(store: Store, publish: Publish | None) -> None:
    """One sweep; any number of workers may sweep at once."""
    with store.write(publish) as work:
        _recover(work)


def release_leases(store: Store, publish: Publish | None, queue: Queue | None = None, counted: bool = True) -> None:
    """Recover at once, without waiting for leases to run out.

    Only for whoever knows that no worker is left: the one `serve` of a data folder.  A ghost that still computes is
    fenced.  Not `counted`: we stopped the worker ourselves, after any number of which the job is still innocent.
    """
    with store.write(publish) as work:
        work.claims.end_leases(queue, counted)
        _recover(work)


def _recover(work: UnitOfWork) -> None:
    for job in work.claims.take_back_expired():
        stopped = job.attempt < MOST_ATTEMPTS  # so it was asked to stop, and its worker died before it heard
        reason = "Cancelled." if stopped else f"The worker stopped {job.attempt} times while doing this."
        work.claims.end(job, JobState.CANCELLED if stopped else JobState.FAILED, reason)
        settle_subject(work, job.shop, job.kind, job.subject_id, reason)
    work.claims.wake_waiting()
