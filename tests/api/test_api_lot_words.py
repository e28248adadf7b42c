"""Words and figures of a lot's page that depend on what its evaluation says."""

from typing import Any

import full_shop
import pytest
from api_world import Shop, World
from evaluation_document import document
from page_reading import said
from starlette.testclient import TestClient


def with_document(monkeypatch: pytest.MonkeyPatch, **other: Any) -> None:
    monkeypatch.setattr(full_shop, "document", lambda verdict: document(verdict) | other)


def test_sorting_hours_are_said_where_many_lines_are_not_listed(
    world: World, shop: Shop, browser: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    few = said(browser, f"/lots/{full_shop.fill(world, shop).lot_id}")
    assert "will not be listed" not in few
    with_document(monkeypatch, actions={"listed": 1, "bundled": 0, "skipped": 1, "never": 1})
    page = said(browser, f"/lots/{full_shop.fill(world, shop).lot_id}")
    assert "2 of 3 lines will not be listed, yet unloading and sorting everything takes about 4.5 hours more." in page


def test_price_each_shows_the_figure_it_is_sorted_by(world: World, shop: Shop, browser: TestClient) -> None:
    lot = f"/lots/{full_shop.fill(world, shop).lot_id}"
    for address in (lot, f"{lot}/lines/2"):
        page = said(browser, address)
        assert "$14.20" in page, "the mean"
        assert "$13.00" not in page, "the median would be in another order"


def test_amounts_of_a_column_have_the_same_digits(world: World, shop: Shop, browser: TestClient) -> None:
    page = said(browser, f"/lots/{full_shop.fill(world, shop).lot_id}")
    for amount in ("$180 $1,100", "$720 ceiling $1,100", "$39.00", "$250.00 assumed $150.00 to $450.00"):
        assert amount in page, amount


def test_a_categorys_own_costs_are_named_in_words(
    world: World, shop: Shop, browser: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    held = {"value": 0.2, "source": "yours", "low": None, "high": None}
    one = {"key": 'selling.by_category."Toys > Dolls".fee_share', **held}
    with_document(monkeypatch, assumptions=[*document()["assumptions"], one])
    page = said(browser, f"/lots/{full_shop.fill(world, shop).lot_id}")
    assert "Selling fee (Toys > Dolls) 20% yours" in page
