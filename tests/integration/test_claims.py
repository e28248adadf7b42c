"""Claim, lease, renewal, fence, cancel, recovery: on SQLite and a real PostgreSQL, leases short enough to watch."""

import threading
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor

import pytest

from models.services.cancel_job import cancel_job
from models.services.recover_jobs import recover_jobs, release_leases
from models.services.users import open_shop
from models.store.records import ClaimedJob, JobRecord, ShopId
from models.store.states import JobKind, JobState, Queue
from models.store.unit_of_work import MOST_ATTEMPTS, Store
from models.values.errors import Cancelled, Conflict, LeaseLost, NotFound

LEASE_MS = 300


@pytest.fixture
def store(database: str) -> Iterator[Store]:
    made = Store(database, lease_ms=LEASE_MS)
    yield made
    made.close()


def queued(store: Store, shop: ShopId, queue: Queue = Queue.QUICK, subject: str = "x") -> JobRecord:
    with store.write() as work:
        return work.jobs.queue(shop, JobKind.EVALUATE_LOT, queue, subject, {"seed": 1})


def claimed(store: Store, queue: Queue = Queue.QUICK) -> ClaimedJob | None:
    with store.write() as work:
        return work.claims.claim_next(queue)


def read(store: Store, shop: ShopId, job: JobRecord) -> JobRecord:
    with store.read() as work:
        return work.jobs.require(shop, job.id)


def wait_for_lease_end() -> None:
    time.sleep(LEASE_MS / 1000 + 0.1)


def test_a_claim_takes_the_oldest_of_its_queue(store: Store, shop: ShopId) -> None:
    long = queued(store, shop, Queue.LONG)
    first, second = queued(store, shop), queued(store, shop)
    assert [getattr(claimed(store), "id", None) for _ in range(3)] == [first.id, second.id, None]
    job = claimed(store, Queue.LONG)
    assert job is not None
    assert (job.id, job.attempt, job.payload) == (long.id, 1, {"seed": 1})
    assert read(store, shop, long).state is JobState.RUNNING


def test_jobs_queued_in_one_instant_are_claimed_in_their_order(store: Store, shop: ShopId) -> None:
    with store.write() as work:
        jobs = [work.jobs.queue(shop, JobKind.TRAIN_MODEL, Queue.LONG, "x", {}) for _ in range(20)]
    taken = [getattr(claimed(store, Queue.LONG), "id", None) for _ in jobs]
    assert taken == [job.id for job in jobs]


def test_a_training_goes_before_a_backtest_that_waits_longer(store: Store, shop: ShopId) -> None:
    kinds = (JobKind.BACKTEST, JobKind.BACKTEST, JobKind.TRAIN_MODEL, JobKind.IMPORT_SALES)
    with store.write() as work:
        jobs = [work.jobs.queue(shop, kind, Queue.LONG, "x", {}) for kind in kinds]
    order = [getattr(claimed(store, Queue.LONG), "id", None) for _ in jobs]
    assert order == [jobs[at].id for at in (2, 3, 0, 1)]


def test_the_shop_with_fewest_running_jobs_goes_first(store: Store, shop: ShopId) -> None:
    with store.write() as work:
        other = open_shop(work, "Other").id
    jobs = [queued(store, shop), queued(store, shop), queued(store, other)]
    taken = [claimed(store) for _ in jobs]
    assert [job.id for job in taken if job] == [jobs[0].id, jobs[2].id, jobs[1].id]


def test_many_workers_never_share_a_job(store: Store, shop: ShopId) -> None:
    jobs = {queued(store, shop).id for _ in range(24)}
    with ThreadPoolExecutor(8) as pool:
        taken = [job.id for job in pool.map(lambda _: claimed(store), range(30)) if job is not None]
    missed = []  # a worker that met another's locked row went away empty: the next wake-up takes what is left
    while (job := claimed(store)) is not None:
        missed.append(job.id)
    assert sorted(taken + missed) == sorted(jobs)


def test_a_lost_lease_fences_every_write(store: Store, shop: ShopId) -> None:
    job = queued(store, shop)
    first = claimed(store)
    wait_for_lease_end()
    recover_jobs(store, None)
    second = claimed(store)
    assert first is not None
    assert second is not None
    assert (second.id, second.attempt) == (job.id, 2)
    for write in (
        lambda work: work.claims.renew(first),
        lambda work: work.claims.progress(first, 0.5, "late"),
        lambda work: work.claims.hold(first),
        lambda work: work.claims.end(first, JobState.DONE, None),
        lambda work: work.claims.put_back(first, 0),
    ):
        with pytest.raises(LeaseLost), store.write() as work:
            write(work)
    with store.write() as work:
        work.claims.progress(second, 0.25, "counting")
        work.claims.end(second, JobState.DONE, None)
    after = read(store, shop, job)
    assert (after.state, after.progress, after.attempt) == (JobState.DONE, 1.0, 2)


def test_renewing_keeps_the_lease(store: Store, shop: ShopId) -> None:
    job = queued(store, shop)
    held = claimed(store)
    assert held is not None
    for _ in range(4):
        time.sleep(LEASE_MS / 2000)
        with store.write() as work:
            assert work.claims.renew(held) is False
        recover_jobs(store, None)
    assert read(store, shop, job).state is JobState.RUNNING


def test_a_job_that_kills_its_workers_fails_with_a_reason(store: Store, shop: ShopId) -> None:
    job = queued(store, shop)
    for attempt in range(1, MOST_ATTEMPTS + 1):
        held = claimed(store)
        assert held is not None
        assert held.attempt == attempt
        wait_for_lease_end()
        recover_jobs(store, None)
    after = read(store, shop, job)
    assert (after.state, after.error) == (JobState.FAILED, "The worker stopped 3 times while doing this.")
    assert claimed(store) is None


def test_cancelling_what_waits_ends_it_at_once(store: Store, shop: ShopId) -> None:
    job = queued(store, shop)
    with store.write() as work:
        assert cancel_job(work, shop, job.id).state is JobState.CANCELLED
    assert claimed(store) is None
    with pytest.raises(Conflict), store.write() as work:
        cancel_job(work, shop, job.id)


def test_cancelling_what_runs_is_heard_at_the_next_write(store: Store, shop: ShopId) -> None:
    job = queued(store, shop)
    held = claimed(store)
    assert held is not None
    with store.write() as work:
        assert cancel_job(work, shop, job.id).state is JobState.RUNNING
    with store.write() as work:
        assert work.claims.renew(held) is True
        assert work.claims.progress(held, 0.1, "step") is True
    with pytest.raises(Cancelled), store.write() as work:
        work.claims.hold(held)


def test_a_cancelled_job_of_a_dead_worker_is_not_run_again(store: Store, shop: ShopId) -> None:
    job = queued(store, shop)
    claimed(store)
    with store.write() as work:
        cancel_job(work, shop, job.id)
    wait_for_lease_end()
    recover_jobs(store, None)
    assert read(store, shop, job).state is JobState.CANCELLED


def test_another_shop_neither_sees_nor_cancels(store: Store, shop: ShopId) -> None:
    job = queued(store, shop)
    with store.write() as work:
        other = open_shop(work, "Other").id
    with pytest.raises(NotFound), store.write() as work:
        cancel_job(work, other, job.id)
    with store.read() as work:
        assert work.jobs.page(other, 50, None).items == ()
        assert work.jobs.get_latest_of(other, "x") is None


def test_many_sweepers_wake_once(store: Store, shop: ShopId) -> None:
    queued(store, shop)
    claimed(store)
    wait_for_lease_end()
    heard: list[Queue] = []
    start = threading.Barrier(6)

    def sweep() -> None:
        start.wait()
        recover_jobs(store, heard.extend)

    threads = [threading.Thread(target=sweep) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert heard == [Queue.QUICK]


def test_a_fresh_job_is_not_woken_again(store: Store, shop: ShopId) -> None:
    queued(store, shop)
    heard: list[Queue] = []
    recover_jobs(store, heard.extend)
    assert heard == []


def test_released_leases_free_their_jobs_at_once_and_fence_the_ghost(store: Store, shop: ShopId) -> None:
    job, other = queued(store, shop), queued(store, shop, Queue.LONG)
    ghost, untouched = claimed(store), claimed(store, Queue.LONG)
    heard: list[Queue] = []
    release_leases(store, heard.extend, Queue.QUICK)
    assert heard == [Queue.QUICK]
    assert ghost is not None
    assert untouched is not None
    with pytest.raises(LeaseLost), store.write() as work:
        work.claims.end(ghost, JobState.DONE, None)
    again = claimed(store)
    assert again is not None
    assert (again.id, again.attempt) == (job.id, 2)
    assert read(store, shop, other).state is JobState.RUNNING


def test_a_job_that_kills_its_workers_comes_to_an_end_without_waiting(store: Store, shop: ShopId) -> None:
    job = queued(store, shop)
    for attempt in range(1, MOST_ATTEMPTS + 1):
        held = claimed(store)
        assert held is not None
        assert held.attempt == attempt
        release_leases(store, None, Queue.QUICK)
    after = read(store, shop, job)
    assert (after.state, after.error) == (JobState.FAILED, "The worker stopped 3 times while doing this.")


def test_being_stopped_by_us_does_not_count(store: Store, shop: ShopId) -> None:
    job = queued(store, shop)
    for _ in range(MOST_ATTEMPTS + 1):
        held = claimed(store)
        assert held is not None
        assert held.attempt == 1
        release_leases(store, None, counted=False)
    with store.write() as work:
        cancel_job(work, shop, job.id)
    assert read(store, shop, job).state is JobState.CANCELLED


def test_a_released_job_that_was_cancelled_is_not_run_again(store: Store, shop: ShopId) -> None:
    job = queued(store, shop)
    claimed(store)
    with store.write() as work:
        cancel_job(work, shop, job.id)
    release_leases(store, None, counted=False)
    assert read(store, shop, job).state is JobState.CANCELLED
