"""Which day a lot is judged as of: said on its page, the other day one step away, and no going round in circles."""

import pytest
from api_world import Shop, World
from page_reading import said, send
from real_lot import manifest, real_lot, work_off
from starlette.testclient import TestClient

from api.http.pages.words import day
from models.services.clock import local_date

FIXED = "2026-07-01"


@pytest.fixture
def lot(world: World, shop: Shop) -> str:
    return f"/lots/{real_lot(world, shop)}"


def judged(world: World, shop: Shop, lot: str) -> str:
    return str(world.client(shop).get(f"/api/v1{lot}/evaluation").json()["as_of"])


def again(world: World, browser: TestClient, lot: str, **form: str) -> None:
    assert send(browser, f"{lot}/evaluations", form) == lot
    work_off(world)


def test_a_fixed_day_is_kept_until_the_seller_takes_today(
    world: World, shop: Shop, browser: TestClient, lot: str
) -> None:
    today = local_date("UTC")
    page = said(browser, lot)
    assert f"Value it as of today, {day(today)}" in page
    assert "Value it again, as of Wed 1 Jul 2026" in page
    again(world, browser, lot)
    assert judged(world, shop, lot) == FIXED
    again(world, browser, lot, day="today")
    assert judged(world, shop, lot) == str(today)
    page = said(browser, lot)
    assert f"Worked out as of {day(today)}, today." in page
    assert "fixed for this lot" not in page
    again(world, browser, lot, **{"buying.premium": "12"})
    assert judged(world, shop, lot) == str(today), "a later change does not go back to the day that was given up"


def test_a_day_asked_for_once_offers_the_fixed_one(world: World, shop: Shop, browser: TestClient, lot: str) -> None:
    today = str(local_date("UTC"))
    assert world.client(shop).post(f"/api/v1{lot}/evaluations", json={"as_of": today}).status_code == 202
    work_off(world)
    page = said(browser, lot)
    assert "The day fixed for this lot is Wed 1 Jul 2026." in page
    assert "Value it as of Wed 1 Jul 2026" in page
    again(world, browser, lot)
    assert judged(world, shop, lot) == FIXED


def test_lots_valued_alike_stay_alike_when_one_of_them_is_valued_again(
    world: World, shop: Shop, browser: TestClient, lot: str
) -> None:
    form = {"as_of": str(local_date("UTC")), "seed": "7"}
    client = world.client(shop)
    made = client.post("/api/v1/lots", files={"manifest": ("other.csv", manifest(2))}, data=form).json()["lot"]
    work_off(world)
    ids = f"{lot.removeprefix('/lots/')} {made['id']}"
    send(browser, "/bid-plan/evaluations", {"lots": ids, "cash": "1000", "hours": "40"})
    work_off(world)
    again(world, browser, lot)
    again(world, browser, f"/lots/{made['id']}")
    asked = {"lots": ids.split(), "cash_limit": "100000", "listing_hours": 500}
    assert client.post("/api/v1/bid-plans", json=asked).status_code == 200
