"""Lines of a lot: folded for a phone, whole for paper, those to check first on top."""

import re

import full_shop
import pytest
from api_world import Shop, World
from evaluation_document import line
from page_reading import words
from starlette.testclient import TestClient

from api.http.pages import lot_view


def test_every_line_folds_and_opens_without_a_script(world: World, shop: Shop, browser: TestClient) -> None:
    lot = f"/lots/{full_shop.fill(world, shop).lot_id}"
    page = browser.get(lot).text
    folds = re.findall(r'<details class="fold"><summary>(.*?)</summary>(.*?)</details>', page, re.DOTALL)
    assert len(folds) == 3
    summary, rest = folds[0]
    assert words(summary).strip() == "Desk lamp 1 <b> $29 3 units, list singly"
    assert "Price each $14.20 ($8.10 to $21.40)" in words(rest)
    assert f'href="{lot}/lines/1"' in rest
    assert "3 units, sell in packs of 3" in words(folds[2][0])


def test_what_to_check_stands_first_with_the_dearest_on_top(world: World, shop: Shop, browser: TestClient) -> None:
    page = words(browser.get(f"/lots/{full_shop.fill(world, shop).lot_id}").text)
    part = page[page.index("Check these first") : page.index("Sort by")]
    assert re.findall(r"line (\d)\), \$\d+", part) == ["2"], (
        "1 would hardly help, 99 is no line, 3 has nothing to check"
    )
    assert "a sold price would settle much" in part


def test_a_part_of_the_lines_says_so_and_all_of_them_are_one_step_away(
    world: World, shop: Shop, browser: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    lot = f"/lots/{full_shop.fill(world, shop).lot_id}"
    assert "stand here" not in words(browser.get(lot).text)
    monkeypatch.setattr(lot_view, "LINES_SHOWN", 2)
    page = browser.get(lot).text
    assert "2 of the 3 lines stand here; the others are on the next page." in words(page)
    assert "?sort=-cash_proceeds&amp;whole=true#lines" in page
    whole = browser.get(f"{lot}?whole=true").text
    assert (whole.count('class="fold"'), "stand here" in words(whole)) == (3, False)


def test_a_line_without_a_condition_names_none(
    world: World, shop: Shop, browser: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(full_shop, "line", lambda no: line(no) | {"condition": None})
    page = words(browser.get(f"/lots/{full_shop.fill(world, shop).lot_id}").text)
    look_ups, lines = page[page.index("Look up first") :], page[page.index("No. What Units") :]
    for part, end in ((look_ups, "Rows of the manifest"), (lines, "Change the terms")):
        assert "None" not in part[: part.index(end)]
