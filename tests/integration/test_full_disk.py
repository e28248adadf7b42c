"""No room left: SQLite's and PostgreSQL's own words for it, and what each part of the service makes of them."""

import logging
import resource
import signal
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
import sqlalchemy as sa

from models.services.check import check
from models.services.do_next_job import do_next_job
from models.services.environment import load_environment
from models.services.migrate import migrate
from models.services.running import Running
from models.services.submit_lot import LotAsked, submit_lot
from models.services.users import open_shop
from models.store.records import ShopId, Upload
from models.store.states import FileState, JobKind, JobState, Queue
from models.store.unit_of_work import Store
from models.values.errors import DiskFull

MUCH = b"x" * 400_000


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """A database that may not grow by much: SQLite then fails as on a full disk."""
    environment = load_environment(data_dir=tmp_path / "data")
    migrate(environment)
    made = Store(environment.database)
    yield made
    made.close()


@pytest.fixture
def shop(store: Store) -> ShopId:
    with store.write() as work:
        return open_shop(work, "Corner shop").id


def fill(store: Store) -> None:
    """From now on no connection may add a page."""
    store.close()

    @sa.event.listens_for(store._engine, "connect")
    def _bounded(connection: sqlite3.Connection, _: object) -> None:
        connection.execute("PRAGMA max_page_count = 1")  # never below what there is


def add_lot(store: Store, shop: ShopId, content: bytes) -> str:
    with store.write() as work:
        return submit_lot(work, shop, Upload("m.csv", [content]), LotAsked("A lot")).job.id


def test_what_cannot_be_stored_says_so_and_leaves_nothing(store: Store, shop: ShopId) -> None:
    fill(store)
    with pytest.raises(DiskFull, match="make room, then try again"):
        add_lot(store, shop, MUCH)
    with store.read() as work:
        assert not work.lots.any(shop)


def test_postgresql_says_it_in_its_own_words(new_postgres_url: Callable[[], str]) -> None:
    made = Store(new_postgres_url())
    with pytest.raises(DiskFull), made.write() as work:
        work._connection.execute(sa.text("DO $$ BEGIN RAISE EXCEPTION 'no room' USING ERRCODE = '53100'; END $$"))
    made.close()


def test_a_job_that_finds_no_room_is_a_clear_failed_job(store: Store, shop: ShopId) -> None:
    job = add_lot(store, shop, b"description\nmug\n")

    def body(running: Running) -> None:
        fill(store)
        with running.finish() as work:
            work.uploads.add(shop, Upload("more.csv", [MUCH]))

    assert do_next_job(store, Queue.QUICK, None, {JobKind.EVALUATE_LOT: body})
    with store.read() as work:
        ended = work.jobs.require(shop, job)
        lot = work.lots.require(shop, ended.subject_id)
    told = "The disk is full: make room, then try again."
    assert (ended.state, ended.error, lot.state, lot.error) == (JobState.FAILED, told, FileState.FAILED, told)


def test_a_claim_that_finds_no_room_is_told_once(
    store: Store, shop: ShopId, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    add_lot(store, shop, b"description\nmug\n")
    real = store.write

    @contextmanager
    def full(publish: object = None) -> Iterator[None]:
        raise DiskFull
        yield

    monkeypatch.setattr(store, "write", full)
    with caplog.at_level(logging.WARNING):
        assert not any(do_next_job(store, Queue.QUICK, None) for _ in range(20))
    assert [record.message for record in caplog.records] == [
        "No job can be begun. The disk is full: make room, then try again."
    ]
    monkeypatch.setattr(store, "write", real)
    with caplog.at_level(logging.WARNING):
        assert do_next_job(store, Queue.QUICK, None, {JobKind.EVALUATE_LOT: lambda running: None})
    assert "That is over" in caplog.text


@contextmanager
def no_file_grows() -> Iterator[None]:
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    before = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1024, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
        signal.signal(signal.SIGXFSZ, before)


def test_a_check_sees_that_nothing_can_be_written(store: Store, shop: ShopId, tmp_path: Path) -> None:
    environment = load_environment(data_dir=tmp_path / "data")
    with no_file_grows():
        found = {one.name: one for one in check(environment, store, lambda: True)}
    assert (found["database"].good, found["tables"].good) == (False, True)
    assert "cannot be written" in found["database"].says
    assert all(one.good for one in check(environment, store, lambda: True))
