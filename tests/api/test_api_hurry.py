"""A seller with an auction closing soon: how long is left, and the bid that stands, without a search."""

import datetime as dt
import json
import re

from api_world import Shop, World
from page_reading import said, send, words
from real_lot import history, manifest, work_off
from starlette.testclient import TestClient

from models.services.clock import utc_now


def closing_lot(world: World, shop: Shop, minutes: float) -> str:
    client = world.client(shop)
    client.post("/api/v1/sales/imports", files={"file": ("sold.csv", history())})
    work_off(world)
    terms = {"closes_at": (utc_now() + dt.timedelta(minutes=minutes)).isoformat(), "current_bid": "300.00"}
    form = {"settings": json.dumps({"lot": terms, "buying": {"premium": 0.11}})}
    made = client.post("/api/v1/lots", files={"manifest": ("lot.csv", manifest())}, data=form).json()
    work_off(world)
    return f"/lots/{made['lot']['id']}"


def test_time_left_stands_on_the_lot_and_where_lots_are_listed(world: World, shop: Shop, browser: TestClient) -> None:
    lot = closing_lot(world, shop, 58.5)
    for address in (lot, "/", "/bid-plan"):
        assert re.search(r"5[78] minutes left at \d\d:\d\d", said(browser, address))


def test_the_bid_that_stands_is_changed_under_the_ceiling(world: World, shop: Shop, browser: TestClient) -> None:
    lot = closing_lot(world, shop, 58.5)
    page = browser.get(lot).text
    section = page[page.index('<section class="ceiling"') : page.index("</section>")]
    assert 'name="lot.current_bid" value="300.00"' in section
    assert send(browser, f"{lot}/evaluations", {"lot.current_bid": "1.350,00"}) == lot
    work_off(world)
    told = world.client(shop).get(f"/api/v1{lot}").json()["settings"]
    assert told["lot"]["current_bid"] == "1350.00"
    assert (told["buying"]["premium"], "closes_at" in told["lot"]) == (0.11, True), "all else stays"
    assert "The bid stands at $1,350." in said(browser, lot)


def test_over_bidding_asks_for_no_bid(world: World, shop: Shop, browser: TestClient) -> None:
    page = browser.get(closing_lot(world, shop, -5)).text
    assert 'id="standing"' not in page
    assert "left at" not in words(page)


def test_a_file_that_asks_is_one_step_away(world: World, shop: Shop, browser: TestClient) -> None:
    rows = b"Item,Qty,Price\nBlue glass mug,2,12.99\nDesk lamp,1,45.00\n"
    made = world.client(shop).post("/api/v1/lots", files={"manifest": ("m.csv", rows)}).json()["lot"]
    work_off(world)
    assert f'<a href="/lots/{made["id"]}"><strong>needs an answer from you</strong></a>' in browser.get("/").text
