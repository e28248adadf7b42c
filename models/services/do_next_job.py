"""Claim the next job of a queue, do it, see to how it ends."""

import logging
from collections.abc import Callable, Mapping

from models.services.job_services import SERVICES
from models.services.renewal import RENEW_SECONDS, renewed
from models.services.running import Running
from models.services.settle import settle_subject
from models.services.told_once import ToldOnce
from models.store.records import ClaimedJob
from models.store.states import JobKind, JobState, Queue
from models.store.unit_of_work import MOST_ATTEMPTS, TRANSIENT, Publish, Store
from models.values.errors import Cancelled, DiskFull, LeaseLost, LotwrightError

RETRY_MS = 5_000

_log = logging.getLogger(__name__)
_trouble = ToldOnce(_log)
_NOT_WRITTEN: tuple[type[Exception], ...] = (LeaseLost, *TRANSIENT)

Body = Callable[[Running], None]


def do_next_job(
    store: Store,
    queue: Queue,
    publish: Publish | None,
    services: Mapping[JobKind, Body] = SERVICES,
    renew_seconds: float = RENEW_SECONDS,
) -> bool:
    """True if there was one.  Claiming nothing is normal: a message only wakes."""
    job = _claimed(store, queue)
    if job is None:
        return False
    running = Running(store, job, publish)
    with renewed(store, running, renew_seconds):
        _do(store, running, services[job.kind])
    _wake_for_more(store, queue, publish)
    return True


def _claimed(store: Store, queue: Queue) -> ClaimedJob | None:
    """Waking goes on every few seconds while a disk is full: each would otherwise tell it again, with a traceback."""
    try:
        with store.write() as work:
            job = work.claims.claim_next(queue)
    except DiskFull as full:
        _trouble.say(f"No job can be begun. {full.message}")
        return None
    _trouble.over()
    return job


def _wake_for_more(store: Store, queue: Queue, publish: Publish | None) -> None:
    try:
        with store.write(publish) as work:
            work.claims.more_waiting(queue)
    except TRANSIENT:
        _log.warning("could not look for more work in %s; the sweeper will", queue.value, exc_info=True)


def _do(store: Store, running: Running, body: Body) -> None:
    try:
        body(running)
    except LeaseLost:
        _log.info("job %s is held by another worker now", running.job.id)
    except Cancelled:
        _end(store, running, JobState.CANCELLED, "Cancelled.")
    except LotwrightError as error:  # a full disk among them
        _end(store, running, JobState.FAILED, error.message)
    except TRANSIENT:
        _try_again(store, running)
    except (SystemExit, KeyboardInterrupt):  # this process was asked to stop, the job was not
        _give_back(store, running)
        raise
    except MemoryError:
        _end(store, running, JobState.FAILED, "There was not enough memory for this file.")
    except Exception:
        _log.exception("job %s failed", running.job.id)
        _end(store, running, JobState.FAILED, "Something went wrong in the service itself; the worker's log says what.")


def _end(store: Store, running: Running, state: JobState, reason: str) -> None:
    """End without a result; if even that cannot be written, the lease runs out and the sweeper sees to it."""
    job = running.job
    try:
        with store.write() as work:
            work.claims.end(job, state, reason)
            settle_subject(work, job.shop, job.kind, job.subject_id, reason)
    except _NOT_WRITTEN:
        _log.warning("the end of job %s was not written", job.id, exc_info=True)


def _try_again(store: Store, running: Running) -> None:
    _log.warning("job %s met a passing trouble", running.job.id, exc_info=True)
    if running.job.attempt >= MOST_ATTEMPTS:
        _end(store, running, JobState.FAILED, f"The database did not answer, {MOST_ATTEMPTS} times.")
    else:
        _put_back(store, running)


def _give_back(store: Store, running: Running) -> None:
    try:
        with store.write() as work:
            work.claims.give_back(running.job)
    except _NOT_WRITTEN:
        _log.warning("job %s was not given back; its lease will run out", running.job.id, exc_info=True)


def _put_back(store: Store, running: Running) -> None:
    try:
        with store.write() as work:
            work.claims.put_back(running.job, RETRY_MS * running.job.attempt)
    except _NOT_WRITTEN:
        _log.warning("job %s was not put back; its lease will run out", running.job.id, exc_info=True)
