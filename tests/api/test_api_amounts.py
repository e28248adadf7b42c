"""Amounts that can be read in two ways are asked back in every form, marked where they stand; nothing is kept."""

import re

import pytest
from api_world import Shop, World
from full_shop import fill
from page_reading import said, send, words
from starlette.testclient import TestClient

CLEAR = "USD has 2 digits after the point: write 1500 or 1.50"


@pytest.fixture
def lot(world: World, shop: Shop) -> str:
    return f"/lots/{fill(world, shop).lot_id}"


def refused(browser: TestClient, address: str, **typed: str) -> str:
    """The page that comes back."""
    found = re.search(r'name="csrf" content="(\w+)"', browser.get("/").text)
    assert found is not None
    answer = browser.post(address, data={"csrf": found[1], **typed})
    assert answer.status_code == 422, words(answer.text)
    return answer.text


def test_a_standing_bid_is_asked_back(world: World, shop: Shop, browser: TestClient, lot: str) -> None:
    page = refused(browser, f"{lot}/evaluations", **{"lot.current_bid": "1.500"})
    assert CLEAR in words(page)
    assert re.search(r'name="lot.current_bid"[^>]*value="1.500"', page)
    assert world.client(shop).get(f"/api/v1{lot}").json()["settings"] == {}


def test_a_limit_to_fix_is_asked_back(world: World, shop: Shop, browser: TestClient, lot: str) -> None:
    page = refused(browser, f"{lot}/ceiling", amount="1.500")
    assert CLEAR in words(page)
    assert 'name="amount" value="1.500"' in page
    assert world.client(shop).get(f"/api/v1{lot}/ceilings").json()["items"] == []
    send(browser, f"{lot}/ceiling", {"amount": "600,50"})
    assert world.client(shop).get(f"/api/v1{lot}").json()["fixed_ceiling"]["amount"] == "600.50"


def test_a_limit_far_above_all_reason_is_told_as_that(browser: TestClient, lot: str) -> None:
    assert "more than 1,000,000,000 USD: is it mistyped?" in words(
        refused(browser, f"{lot}/ceiling", amount="99999999999")
    )


def test_a_looked_up_price_is_asked_back_beside_its_field(
    world: World, shop: Shop, browser: TestClient, lot: str
) -> None:
    typed = {"version": "1", "price-1": "12", "price-2": "1.500", "price-3": "dear", "action": "skip"}
    page = refused(browser, f"{lot}/lines/2", **typed)
    assert "Nothing was kept yet." in words(page)
    assert CLEAR in words(page)
    assert re.findall(r'name="price-(\d)" value="([^"]*)"', page) == [("1", "12"), ("2", "1.500"), ("3", "dear")]
    assert re.findall(r'aria-describedby="doubt-2-(\d)"', page) == ["2", "3"]
    assert '<option value="skip" selected>' in page
    given = world.client(shop).get(f"/api/v1{lot}/lines/2").json()["given"]
    assert given == {"looked_up_prices": [], "action": None}


def test_the_cash_of_a_plan_is_asked_back(browser: TestClient, lot: str) -> None:
    answer = browser.get(f"/bid-plan?lot={lot.removeprefix('/lots/')}&cash=3.000&hours=5")
    assert answer.status_code == 422
    assert "write 3000 or 3.00" in words(answer.text)


def test_settings_ask_in_the_currency_that_is_typed_beside_them(browser: TestClient) -> None:
    version = re.search(r'name="version" value="(\d+)"', browser.get("/settings").text)
    assert version is not None
    typed = {"version": version[1], "currency": "jpy", "goals.hourly_pay": "12.345"}
    assert "JPY has whole amounts only: write 12345 or 12" in words(refused(browser, "/settings", **typed))
    send(browser, "/settings", typed | {"goals.hourly_pay": "1.234.567", "buying.rivals": "Few"})
    page = browser.get("/settings").text
    assert re.search(r'name="currency"[^>]*value="JPY"', page)
    assert re.search(r'name="buying.rivals"[^>]*value="few"', page)
    assert re.search(r'name="goals.hourly_pay"[^>]*value="1234567"', page)


def test_a_new_shops_currency_is_nobodys_word_and_an_auctions_way_is_listed_once(browser: TestClient) -> None:
    page = browser.get("/settings").text
    assert "If empty: USD." in words(page)
    ways = re.search(r'<select id="buying.bidding".*?</select>', page, re.S)
    assert ways is not None
    assert re.findall(r"<option[^>]*>([^<]*)", ways[0]) == ["not said: rising", "rising", "sealed"]


def test_a_line_tells_all_its_figures(browser: TestClient, lot: str) -> None:
    page = said(browser, f"{lot}/lines/1")
    for part in ("Sold in time 81%", "Days to sell about 33", "Minutes to list 18", "After pay $21"):
        assert part in page
