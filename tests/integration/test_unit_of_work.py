"""Commit, then wake: what a failed commit, a failed body and a failed wake-up leave behind."""

import logging
from collections.abc import Collection

import pytest
import sqlalchemy as sa

from models.store.records import ShopId
from models.store.states import JobKind, Queue
from models.store.unit_of_work import Store, UnitOfWork
from models.values.errors import NotFound, Rejected


def queue_one(work: UnitOfWork, shop: ShopId) -> str:
    return work.jobs.queue(shop, JobKind.TRAIN_MODEL, Queue.LONG, "x", {}).id


def test_queues_are_woken_after_the_commit(store: Store, shop: ShopId) -> None:
    seen: list[tuple[set[Queue], int]] = []

    def publish(queues: Collection[Queue]) -> None:
        with store.read() as other:
            seen.append((set(queues), len(other.jobs.page(shop, 50, None).items)))

    with store.write(publish) as work:
        queue_one(work, shop)
        queue_one(work, shop)
        assert seen == []
    assert seen == [({Queue.LONG}, 2)]


def test_a_failed_body_queues_nothing_and_wakes_nobody(store: Store, shop: ShopId) -> None:
    heard: list[Queue] = []

    def body() -> None:
        with store.write(heard.extend) as work:
            queue_one(work, shop)
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        body()
    with store.read() as work:
        assert work.jobs.page(shop, 50, None).items == ()
    assert heard == []


def test_a_failed_commit_queues_nothing_and_wakes_nobody(store: Store, shop: ShopId) -> None:
    heard: list[Queue] = []

    def fails(_: sa.Connection) -> None:
        raise RuntimeError("commit")

    sa.event.listen(store._engine, "commit", fails)
    with pytest.raises(RuntimeError, match="commit"), store.write(heard.extend) as work:
        queue_one(work, shop)
    sa.event.remove(store._engine, "commit", fails)
    with store.read() as work:
        assert work.jobs.page(shop, 50, None).items == ()
    assert heard == []


def test_a_failed_wake_up_is_only_logged(store: Store, shop: ShopId, caplog: pytest.LogCaptureFixture) -> None:
    def publish(_: Collection[Queue]) -> None:
        raise ConnectionError("no queue")

    with caplog.at_level(logging.WARNING), store.write(publish) as work:
        made = queue_one(work, shop)
    with store.read() as work:
        assert work.jobs.require(shop, made).id == made
    assert "the sweeper will" in caplog.text


def test_reading_changes_nothing(store: Store, shop: ShopId) -> None:
    with store.read() as work:
        work.shops.set_time_zone(shop, "Europe/Berlin")
    with store.read() as work:
        assert work.shops.require(shop).time_zone == "UTC"


def test_values_that_no_column_holds_are_refused(store: Store, shop: ShopId) -> None:
    for number in (2**31, 2**63, 10**30):
        with pytest.raises((Rejected, NotFound)), store.read() as work:
            work.models.require(shop, number)
    with pytest.raises((Rejected, NotFound)), store.read() as work:
        work.lots.require(shop, "a\0b")
