"""What a line's page says its price rests on: the figures of its evaluation in words, own sales like it in a table."""

from typing import Any

import evaluation_document
import full_shop
import pytest
from api_world import Shop, World
from page_reading import said
from starlette.testclient import TestClient

from api.http.pages.evidence_words import bulk_words, nearness, rests_on

COMP = {
    "title": "Desk lamp <i>", "sold_price": "13.50", "sold_on": "2026-05-12", "condition": "works", "sale": "O55",
    "sourced": "single", "days_to_sell": 40.0, "same": "item",
}  # fmt: skip
OTHER = {name: value for name, value in COMP.items() if name != "same"} | {
    "title": "Lamp", "sold_on": None, "condition": None, "sourced": None, "days_to_sell": None, "likeness": 0.5,
}  # fmt: skip
EVIDENCE = {
    "basis": "own_item", "sales_like_it": 12, "sales_of_product": 15, "bulk_against_single": 0.684,
    "tag": {"manifest": "390.00", "own_median": "39.00", "used": "39.00", "said": "It was not believed."},
    "spread": {"share": 0.5, "low": "10.20", "high": "16.80"},
}  # fmt: skip


def page_of(world: World, shop: Shop, browser: TestClient, monkeypatch: pytest.MonkeyPatch, **told: Any) -> str:
    plain = evaluation_document.line
    monkeypatch.setattr(full_shop, "line", lambda no: plain(no) | told)
    return said(browser, f"/lots/{full_shop.fill(world, shop).lot_id}/lines/2")


def test_a_lines_page_says_what_its_price_rests_on(
    world: World, shop: Shop, browser: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = page_of(world, shop, browser, monkeypatch, evidence=EVIDENCE, own_comps=[COMP, OTHER])
    assert "It rests on your 12 sales of this very item and 3 of it in other conditions." in page
    assert "half of such pieces fetch between $10.20 and $16.80, 8 in 10 between $8.10 and $21.40." in page
    assert "It was not believed. The list says $390, your own sales $39." in page
    assert "Desk lamp <i> O55 $13.50 Tue 12 May 2026 works (a single find) 40 this very item" in page
    assert "A piece from a bulk lot is expected to fetch about 32% less than one that you picked singly;" in page
    assert "Lamp O55 $13.50 no day given not given alike" in page


def test_a_line_that_was_valued_before_says_what_it_knows(
    world: World, shop: Shop, browser: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = page_of(world, shop, browser, monkeypatch)
    assert "It rests on your 41 sales in this category." in page
    assert "What you sold like it" not in page
    assert "nothing like it" not in page


def test_a_line_like_nothing_says_so(
    world: World, shop: Shop, browser: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: dict[str, Any] = {"own_comps": [], "condition": None, "evidence": {"basis": "tag_only", "sales_like_it": 0}}
    page = page_of(world, shop, browser, monkeypatch, **told)
    assert "You have sold nothing like it in the last two years." in page
    assert "It rests on its tag: you have sold nothing of its kind." in page
    assert "No condition is given that we know, so the price is less sure." in page


def test_a_line_without_a_condition_says_how_it_was_priced(
    world: World, shop: Shop, browser: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    priced = {"basis": "category", "sales_like_it": 9, "sales_of_product": 4, "priced_as": "worn"}
    page = page_of(world, shop, browser, monkeypatch, condition=None, evidence=priced)
    assert "most of your sales of it were worn, so it is priced as that or lower, and less surely." in page


@pytest.mark.parametrize(
    ("evidence", "words"),
    [
        ({"basis": "own_item", "sales_like_it": 1, "sales_of_product": 1}, "your 1 sale of this very item"),
        (
            {"basis": "category", "sales_like_it": 9, "sales_of_product": 2},
            "your 2 sales of it in other conditions, and your 9 sales in this category",
        ),
        ({"basis": "prior_only", "sales_like_it": 0}, "no sale of yours and no tag: it is a guess"),
    ],
)
def test_what_a_price_rests_on(evidence: dict[str, Any], words: str) -> None:
    assert rests_on(evidence) == words


@pytest.mark.parametrize(("factor", "words"), [(1.25, "about 25% more than"), (0.5, "50% less"), (1.01, "")])
def test_bulk_goods_against_single_finds(factor: float, words: str) -> None:
    said_of_it = bulk_words({"bulk_against_single": factor})
    assert words in said_of_it
    assert bool(said_of_it) == bool(words)
    assert not bulk_words({})


@pytest.mark.parametrize(
    ("comp", "words"),
    [
        ({"same": "product"}, "the same in another condition"),
        ({"likeness": 0.9}, "much alike"),
        ({"likeness": 0.4}, "alike"),
        ({"likeness": 0.2}, "a little alike"),
    ],
)
def test_how_like_a_sale_is(comp: dict[str, Any], words: str) -> None:
    assert nearness(comp) == words
