"""Many at once: writers take turns without starving the threads that the lock's holder needs."""

import asyncio
from typing import Any

import pytest
from api_world import World
from httpx2 import ASGITransport, AsyncClient

BODY = {"files": {"manifest": ("m.csv", b"description\nLamp\n")}}


def crowd(world: World, token: str, keys: list[str], looks: int = 0) -> list[Any]:
    """Upload once a key, and look at a list so many times, all at once."""

    async def all_at_once() -> list[Any]:
        transport = ASGITransport(app=world.app)
        headers = {"authorization": f"Bearer {token}"}
        async with AsyncClient(transport=transport, base_url="http://127.0.0.1", headers=headers) as client:
            sent = [client.post("/api/v1/lots", headers={"idempotency-key": key}, **BODY) for key in keys]
            sent += [client.get("/api/v1/lots") for _ in range(looks)]
            return await asyncio.wait_for(asyncio.gather(*sent), timeout=25)

    return asyncio.run(all_at_once())


@pytest.mark.parametrize("how_many", [120])
def test_more_writers_than_threads(world: World, how_many: int) -> None:
    shop = world.shop("a")
    answers = crowd(world, shop.token, [f"k-{number}" for number in range(how_many)])
    assert {one.status_code for one in answers} == {202}
    assert len({one.json()["lot"]["id"] for one in answers}) == how_many


def test_more_readers_than_connections(world: World) -> None:
    answers = crowd(world, world.shop("a").token, ["k-1", "k-2"], looks=200)
    assert {one.status_code for one in answers} == {200, 202}


def test_the_same_request_twenty_times_at_once_makes_one_thing(world: World) -> None:
    shop = world.shop("a")
    answers = crowd(world, shop.token, ["k"] * 20)
    assert {one.status_code for one in answers} == {202}
    assert len({one.json()["lot"]["id"] for one in answers}) == 1
    assert len(world.client(shop).get("/api/v1/lots").json()["items"]) == 1
