"""A job from claim to end, with bodies of the test's own: what each way of ending leaves behind."""

import threading
import time
from collections.abc import Callable, Iterator

import pytest
from sqlalchemy.exc import OperationalError

from models.services.cancel_job import cancel_job
from models.services.do_next_job import do_next_job
from models.services.recover_jobs import recover_jobs
from models.services.running import Running
from models.services.submit_lot import LotAsked, submit_lot
from models.store.records import JobRecord, LotRecord, ShopId, Upload
from models.store.states import FileState, JobKind, JobState, Queue
from models.store.unit_of_work import Store
from models.values.errors import Unreadable

Body = Callable[[Running], None]


@pytest.fixture
def store(database: str) -> Iterator[Store]:
    made = Store(database, lease_ms=600)
    yield made
    made.close()


def submitted(store: Store, shop: ShopId) -> JobRecord:
    with store.write() as work:
        return submit_lot(work, shop, Upload("m.csv", [b"description\nmug\n"]), LotAsked("A lot")).job


def done(store: Store, body: Body, publish: Callable[[object], None] | None = None, renew_seconds: float = 0.1) -> bool:
    return do_next_job(store, Queue.QUICK, publish, {JobKind.EVALUATE_LOT: body}, renew_seconds)


def after(store: Store, shop: ShopId, job: JobRecord) -> tuple[JobRecord, LotRecord]:
    with store.read() as work:
        return work.jobs.require(shop, job.id), work.lots.require(shop, job.subject_id)


def test_nothing_to_do_is_normal(store: Store, shop: ShopId) -> None:
    assert not done(store, lambda running: None)


def test_results_and_the_end_are_one_transaction(store: Store, shop: ShopId) -> None:
    job = submitted(store, shop)

    def body(running: Running) -> None:
        running.progress(0.5, "half way")
        with running.finish() as work:
            work.lots.set_state(shop, running.job.subject_id, FileState.NEEDS_MODEL)

    assert done(store, body)
    ended, lot = after(store, shop, job)
    assert (ended.state, ended.progress, ended.step, lot.state) == (
        JobState.DONE,
        1.0,
        "half way",
        FileState.NEEDS_MODEL,
    )
    assert ended.started_at is not None
    assert ended.finished_at is not None
    assert ended.created_at <= ended.started_at <= ended.finished_at


def test_a_body_that_fails_while_saving_saves_nothing(store: Store, shop: ShopId) -> None:
    job = submitted(store, shop)

    def body(running: Running) -> None:
        with running.finish() as work:
            work.lots.save_read(shop, running.job.subject_id, 5, 5, None)
            raise ZeroDivisionError

    assert done(store, body)
    ended, lot = after(store, shop, job)
    assert (ended.state, lot.state, lot.lines) == (JobState.FAILED, FileState.FAILED, 0)
    assert "worker's log" in str(ended.error)


def test_a_refused_file_fails_with_its_own_words(store: Store, shop: ShopId) -> None:
    job = submitted(store, shop)

    def body(running: Running) -> None:
        raise Unreadable("This file is empty.")

    assert done(store, body)
    ended, lot = after(store, shop, job)
    assert (ended.state, ended.error, lot.error) == (JobState.FAILED, "This file is empty.", "This file is empty.")


def test_passing_trouble_is_tried_again_and_then_told(store: Store, shop: ShopId) -> None:
    job = submitted(store, shop)
    tries = []

    def body(running: Running) -> None:
        tries.append(running.job.attempt)
        raise OperationalError("", {}, OSError("connection refused"))

    for attempt in (1, 2, 3):
        assert done(store, body)
        ended, _ = after(store, shop, job)
        if attempt < 3:
            assert ended.state is JobState.QUEUED
            assert not done(store, body)  # not before its time
            make_due(store, job)
    assert (tries, ended.state, ended.error) == ([1, 2, 3], JobState.FAILED, "The database did not answer, 3 times.")


def make_due(store: Store, job: JobRecord) -> None:
    with store.write() as work:
        work._connection.exec_driver_sql(f"UPDATE job SET not_before = 0 WHERE id = '{job.id}'")


def test_a_job_cut_short_is_given_back_and_does_not_count(store: Store, shop: ShopId) -> None:
    job = submitted(store, shop)

    def body(running: Running) -> None:
        raise SystemExit(0)

    with pytest.raises(SystemExit):
        done(store, body)
    given_back, lot = after(store, shop, job)
    assert (given_back.state, given_back.attempt, lot.state) == (JobState.QUEUED, 0, FileState.READING)

    def whole(running: Running) -> None:
        with running.finish():
            pass

    assert done(store, whole)
    assert after(store, shop, job)[0].attempt == 1


def test_progress_is_written_at_most_twice_a_second(store: Store, shop: ShopId) -> None:
    job = submitted(store, shop)
    seen: list[float] = []

    def body(running: Running) -> None:
        for share in (0.1, 0.2, 0.3):
            running.progress(share, "counting")
            seen.append(after(store, shop, job)[0].progress)
        time.sleep(0.55)
        running.progress(2.0, "counting")
        seen.append(after(store, shop, job)[0].progress)
        with running.finish():
            pass

    assert done(store, body)
    assert seen == [0.1, 0.1, 0.1, 1.0]


def test_the_lease_is_renewed_while_the_body_computes(store: Store, shop: ShopId) -> None:
    job = submitted(store, shop)

    def body(running: Running) -> None:
        for _ in range(3):
            time.sleep(0.4)
            recover_jobs(store, None)
        with running.finish():
            pass

    assert done(store, body)
    ended, _ = after(store, shop, job)
    assert (ended.state, ended.attempt) == (JobState.DONE, 1)


def test_a_body_that_lost_its_lease_saves_nothing(store: Store, shop: ShopId) -> None:
    job = submitted(store, shop)

    def slow(running: Running) -> None:
        time.sleep(0.8)
        recover_jobs(store, None)
        assert done(store, quick)
        with running.finish() as work:
            work.lots.save_read(shop, running.job.subject_id, 1, 1, None)

    def quick(running: Running) -> None:
        with running.finish() as work:
            work.lots.save_read(shop, running.job.subject_id, 2, 2, None)

    assert done(store, slow, renew_seconds=60)
    ended, lot = after(store, shop, job)
    assert (ended.state, ended.attempt, lot.lines) == (JobState.DONE, 2, 2)


def test_cancelling_is_heard_at_a_renewal(store: Store, shop: ShopId) -> None:
    job = submitted(store, shop)
    begun = threading.Event()

    def body(running: Running) -> None:
        begun.set()
        end = time.monotonic() + 10
        while running.lost is None and time.monotonic() < end:
            time.sleep(0.02)
        running.progress(0.5, "never told")

    thread = threading.Thread(target=done, args=(store, body))
    thread.start()
    begun.wait(10)
    with store.write() as work:
        cancel_job(work, shop, job.id)
    thread.join(15)
    ended, lot = after(store, shop, job)
    assert (ended.state, ended.error, ended.step, lot.state) == (JobState.CANCELLED, "Cancelled.", "", FileState.FAILED)


def test_a_cancelled_job_does_not_save_at_its_end(store: Store, shop: ShopId) -> None:
    job = submitted(store, shop)

    def body(running: Running) -> None:
        with store.write() as work:
            cancel_job(work, shop, job.id)
        with running.finish() as work:
            work.lots.save_read(shop, running.job.subject_id, 1, 1, None)

    assert done(store, body, renew_seconds=60)
    ended, lot = after(store, shop, job)
    assert (ended.state, lot.lines) == (JobState.CANCELLED, 0)


def test_what_still_waits_is_woken_after_a_job(store: Store, shop: ShopId) -> None:
    heard: list[object] = []

    def body(running: Running) -> None:
        with running.finish():
            pass

    submitted(store, shop)
    submitted(store, shop)
    assert done(store, body, heard.append)
    assert heard == [{Queue.QUICK}]
    assert done(store, body, heard.append)
    assert heard == [{Queue.QUICK}]
