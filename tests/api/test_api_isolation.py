"""Nobody sees another shop: every route is walked with another shop's ids, driven by the application's own routes."""

import re
from typing import Any

import pytest
from api_world import World
from full_shop import Full, fill
from routes_walked import Walked, walked

SHARED = {
    "GET /healthz",
    "GET /readyz",
    "GET /api/v1/openapi.json",
    "GET /sign-in/{secret}",
    "POST /sign-in/{secret}",
    "POST /sign-out",
}  # fmt: skip  nothing of a shop
BY_BODY = {"POST /api/v1/bid-plans"}  # names things in its body: has a test of its own below
BODIES: dict[str, dict[str, Any]] = {
    "PUT /api/v1/lots/{lot_id}/mapping": {"json": {"description": "Item"}},
    "PUT /api/v1/sales/imports/{import_id}/mapping": {"json": {"title": "Item"}},
    "POST /api/v1/lots": {"files": {"manifest": ("m.csv", b"description\nLamp\n")}},
    "POST /api/v1/sales/imports": {"files": {"file": ("s.csv", b"title,sold_price\nLamp,3\n")}},
    "PUT /api/v1/settings": {"json": {}, "headers": {"if-match": "*"}},
    "PATCH /api/v1/lots/{lot_id}/lines/{no}": {"json": {"action": "skip"}, "headers": {"if-match": "*"}},
    "POST /api/v1/lots/{lot_id}/ceiling": {"json": {"amount": "700"}},
    "POST /api/v1/work-log": {"json": {"items": 40, "hours": 5}},
    "POST /history/work-log": {"data": {"items": "40", "hours": "5"}},
    "POST /api/v1/lots/{lot_id}/what-if": {"json": {"settings": {}}},
    "POST /lots/{lot_id}/ceiling": {"data": {"amount": "700"}},
    "POST /lots/{lot_id}/lines/{no}": {"data": {"version": "1", "price-1": "12"}},
    "POST /lots": {"files": {"manifest": ("m.csv", b"description\nLamp\n")}},
    "POST /history/imports": {"files": {"file": ("s.csv", b"title,sold_price\nLamp,3\n")}},
    "POST /settings": {"data": {"version": "1"}},
    "POST /lots/{lot_id}/columns": {"data": {"column-description": "Item"}},
    "POST /history/imports/{import_id}/columns": {"data": {"column-title": "Item"}},
}


def ids(full: Full) -> dict[str, str]:
    of_lot = {"import_id": full.import_id, "lot_id": full.lot_id, "job_id": full.job_id, "number": "2", "no": "2"}
    return of_lot | {"entry_id": full.entry_id}


@pytest.fixture
def two(world: World) -> tuple[World, Full, Any]:
    theirs, ours = world.shop("theirs"), world.shop("ours")
    full = fill(world, theirs)
    fill(world, theirs)  # so that their model version 2 has a number that we do not have
    fill(world, ours)
    return world, full, ours


def sent(world: World, ours: Any, route: Walked, path: str) -> Any:
    client = world.client(ours) if route.is_api else world.browser(ours)
    body = {**BODIES.get(str(route), {})}
    if not route.is_api and route.method == "POST":
        token = re.search(r'name="csrf" content="(\w+)"', client.get("/").text)
        assert token is not None
        body["data"] = {**body.get("data", {}), "csrf": token[1]}
    return client.request(route.method, path, **body)


def test_another_shops_things_are_not_found(two: tuple[World, Full, Any]) -> None:
    world, theirs, ours = two
    routes = [route for route in walked(world.app) if "{" in route.path and str(route) not in SHARED]
    assert len(routes) > 20
    for route in routes:
        path = route.path.format_map(ids(theirs))
        answer = sent(world, ours, route, path)
        assert answer.status_code == 404, (route, answer.status_code, answer.text[:300])


def test_our_own_are_found_by_the_same_requests(two: tuple[World, Full, Any]) -> None:
    world = two[0]
    routes = [route for route in walked(world.app) if "{" in route.path and str(route) not in SHARED]
    for index, route in enumerate(routes):
        shop = world.shop(f"fresh-{index}")
        full = fill(world, shop)
        fill(world, shop)
        answer = sent(world, shop, route, route.path.format_map(ids(full)))
        assert answer.status_code in (200, 201, 202, 204, 303, 409), (route, answer.status_code, answer.text[:300])


def test_no_list_shows_anything_of_another_shop(two: tuple[World, Full, Any]) -> None:
    world, theirs, ours = two
    routes = [route for route in walked(world.app) if "{" not in route.path and str(route) not in SHARED | BY_BODY]
    assert len(routes) > 15
    secret = {theirs.import_id, theirs.lot_id, theirs.job_id}
    for route in routes:
        answer = sent(world, ours, route, route.path)
        assert answer.status_code in (200, 201, 202, 303, 412), (route, answer.text[:300])
        assert [one for one in secret if one in answer.text] == [], route


def test_another_shops_lots_named_beside_the_path_are_not_found(two: tuple[World, Full, Any]) -> None:
    world, theirs, ours = two
    program, browser = world.client(ours), world.browser(ours)
    asked = {"lots": [theirs.lot_id], "cash_limit": "100", "listing_hours": 9}
    assert program.post("/api/v1/bid-plans", json=asked).status_code == 404
    assert browser.get(f"/bid-plan?lot={theirs.lot_id}&cash=100&hours=9").status_code == 404
    token = re.search(r'name="csrf" content="(\w+)"', browser.get("/").text)
    assert token is not None
    data = {"csrf": token[1], "lots": theirs.lot_id}
    assert browser.post("/bid-plan/evaluations", data=data).status_code == 404
