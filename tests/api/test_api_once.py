"""A request sent twice makes one thing; a commit that fails says so."""

import re
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from api_world import World
from full_shop import fill

from models.store.states import Queue
from models.store.unit_of_work import Publish, Store, UnitOfWork

LOT = {"files": {"manifest": ("m.csv", b"description\nLamp\n")}, "data": {"name": "One"}}
HISTORY = {"files": {"file": ("s.csv", b"title,sold_price\nLamp,3\n")}}
KEY = {"idempotency-key": "k-1"}
MAKING = [
    ("/api/v1/lots", LOT, {"files": {"manifest": ("m.csv", b"description\nSofa\n")}, "data": {"name": "One"}}),
    ("/api/v1/lots", LOT, {"files": LOT["files"], "data": {"name": "Two"}}),
    ("/api/v1/lots", LOT, {"files": LOT["files"], "data": {"name": "One", "settings": '{"goals": {}}'}}),
    ("/api/v1/sales/imports", HISTORY, {"files": {"file": ("s.csv", b"title,sold_price\nSofa,3\n")}}),
    ("/api/v1/trainings", {"json": {}}, {"json": {"seed": 7}}),
    ("/api/v1/lots/{lot_id}/evaluations", {"json": {}}, {"json": {"seed": 7}}),
]


@pytest.mark.parametrize(("path", "request_", "other"), MAKING)
def test_the_same_key_makes_one_thing(world: World, path: str, request_: dict, other: dict) -> None:  # type: ignore[type-arg]
    shop = world.shop("a")
    path = path.format(lot_id=fill(world, shop).lot_id)
    client = world.client(shop)
    before = len(client.get("/api/v1/jobs").json()["items"])
    first, again = (client.post(path, headers=KEY, **request_) for _ in range(2))
    assert (first.status_code, again.status_code) == (202, 202)
    assert first.json() == again.json()
    assert again.headers["idempotent-replayed"] == "true"
    assert len(client.get("/api/v1/jobs").json()["items"]) == before + 1
    assert client.post(path, headers=KEY, **other).status_code == 409
    assert client.post(path, headers={"idempotency-key": "k-2"}, **other).status_code == 202
    assert client.post(path, **request_).json() != first.json(), "no key: a new thing"


def test_two_shops_may_use_the_same_key(world: World) -> None:
    one, two = (world.client(world.shop(name)).post("/api/v1/lots", headers=KEY, **LOT) for name in ("a", "b"))
    assert one.json()["lot"]["id"] != two.json()["lot"]["id"]


def test_a_key_is_of_a_reasonable_length(world: World) -> None:
    answer = world.client(world.shop("a")).post("/api/v1/lots", headers={"idempotency-key": "k" * 201}, **LOT)
    assert answer.status_code == 422


class FullDisk(Exception):
    """What a commit may fail with."""


class Unlucky(Store):
    """A store whose commits fail when told to."""

    failing = False

    @contextmanager
    def write(self, publish: Publish | None = None) -> Iterator[UnitOfWork]:
        with super().write(publish) as work:
            yield work
            if self.failing:
                raise FullDisk


@pytest.mark.parametrize("path", ["/api/v1/lots", "/lots"])
def test_a_failed_commit_is_not_answered_as_if_it_held(world: World, path: str) -> None:
    shop = world.shop("a")
    world.app.state.store = Unlucky(world.environment.database)
    client = world.client(shop) if "api" in path else world.browser(shop)
    found = re.search(r'name="csrf" content="(\w+)"', client.get("/").text)
    world.app.state.store.failing = True
    answer = client.post(path, files=LOT["files"], data={"name": "One", "csrf": found[1] if found else ""})
    assert answer.status_code == 500
    assert world.client(shop).get("/api/v1/lots").json()["items"] == []
    assert world.wakes.queues == []
    world.app.state.store.close()


def test_a_commit_that_holds_wakes_the_queue(world: World) -> None:
    assert world.client(world.shop("a")).post("/api/v1/lots", **LOT).status_code == 202
    assert world.wakes.queues == [Queue.QUICK]
