"""Packs of a single unit: refused at once, by the API and on the page, never listed singly without a word."""

import re

import pytest
from api_world import Shop, World
from page_reading import said, words
from real_lot import history, work_off
from starlette.testclient import TestClient

LINES = b"description,quantity\nLamp,1\nKettle,1\nKettle,1\nRadio,3\n"
WHY = "A pack takes at least 2 units of the same item"


@pytest.fixture
def lot(world: World, shop: Shop) -> str:
    client = world.client(shop)
    client.post("/api/v1/sales/imports", files={"file": ("sold.csv", history())})
    work_off(world)
    made = client.post("/api/v1/lots", files={"manifest": ("m.csv", LINES)}, data={"as_of": "2026-07-01"}).json()
    work_off(world)
    return f"/lots/{made['lot']['id']}"


def status(client: TestClient, lot: str, no: int, action: str) -> int:
    tag = {"if-match": "*"}
    return client.patch(f"/api/v1{lot}/lines/{no}", json={"action": action}, headers=tag).status_code


def test_a_single_unit_makes_no_pack_but_lines_of_one_item_do_together(world: World, shop: Shop, lot: str) -> None:
    client = world.client(shop)
    assert [status(client, lot, no, "bundle") for no in (1, 2, 4)] == [422, 202, 202]
    assert status(client, lot, 1, "skip") == 202
    refused = client.patch(f"/api/v1{lot}/lines/1", json={"action": "bundle"}, headers={"if-match": "*"}).json()
    assert WHY in refused["detail"]
    assert refused["errors"] == [{"key": "action", "detail": "there is only 1 unit of it"}]


def test_the_page_says_so_and_keeps_what_was_typed(browser: TestClient, lot: str) -> None:
    page = browser.get(f"{lot}/lines/1").text
    found = re.search(r'name="csrf" content="(\w+)"', page)
    assert found is not None
    form = {"csrf": found[1], "version": "1", "action": "bundle", "price-1": "12.50"}
    answer = browser.post(f"{lot}/lines/1", data=form)
    assert answer.status_code == 422
    assert WHY in words(answer.text)
    assert 'value="12.50"' in answer.text
    assert '<option value="bundle" selected>' in answer.text
    assert "You chose" not in said(browser, f"{lot}/lines/1"), "nothing was kept"
