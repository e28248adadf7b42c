"""Recover work that nobody does: jobs of workers that died, jobs whose wake-up was lost."""

from models.services.settle import settle_subject
from models.store.states import JobState
from models.store.unit_of_work import MOST_ATTEMPTS, Publish, Store


def recover_jobs(store: Store, publish: Publish | None) -> None:
    """One sweep; any number of workers may sweep at once."""
    with store.write(publish) as work:
        for job in work.claims.take_back_expired():
            stopped = job.attempt < MOST_ATTEMPTS  # so it was asked to stop, and its worker died before it heard
            reason = "Cancelled." if stopped else f"The worker stopped {job.attempt} times while doing this."
            work.claims.end(job, JobState.CANCELLED if stopped else JobState.FAILED, reason)
            settle_subject(work, job.shop, job.kind, job.subject_id, reason)
        work.claims.wake_waiting()
