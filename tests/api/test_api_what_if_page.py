"""The page that answers what if: at once, without a script, and nothing is saved."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from api_world import Shop, World, open_world
from full_shop import fill
from page_reading import said, words
from real_lot import real_lot
from starlette.testclient import TestClient


@pytest.fixture(scope="module")
def lot(tables: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[World, Shop, str]]:
    world = open_world(tables, tmp_path_factory.mktemp("what-if-page"))
    shop = world.shop("Whatpage")
    yield world, shop, real_lot(world, shop)
    world.close()


def asked(lot: tuple[World, Shop, str], query: str) -> str:
    world, shop, lot_id = lot
    return said(world.browser(shop), f"/lots/{lot_id}/what-if?{query}")


def test_the_answer_stands_above_the_form_and_is_the_services_own(lot: tuple[World, Shop, str]) -> None:
    world, shop, lot_id = lot
    program = world.client(shop)
    before = program.get(f"/api/v1/lots/{lot_id}/evaluations").json()["items"]
    settings = {"buying": {"freight": "120.00", "premium": 0.1}}
    told = program.post(f"/api/v1/lots/{lot_id}/what-if", json={"settings": settings}).json()["bid_ceiling"]
    now = program.get(f"/api/v1/lots/{lot_id}/evaluation").json()["bid_ceiling"]
    page = asked(lot, "buying.freight=%24120&buying.premium=10&buying.rivals=")
    then, was = (f"${float(one['amount']):,.2f}".removesuffix(".00") for one in (told, now))
    assert then != was
    order = [f"Then bid up to {then}", "freight a pallet: $120; buyer's premium: 10%.", f"Now the ceiling is {was}",
             "Now Then", "Nothing was kept back", "Ask again", "Empty fields stay as they were"]  # fmt: skip
    places = [page.find(one) for one in order]
    assert -1 not in places, order[places.index(-1)]
    assert places == sorted(places)
    assert program.get(f"/api/v1/lots/{lot_id}/evaluations").json()["items"] == before


def test_what_was_kept_is_said_in_words(lot: tuple[World, Shop, str]) -> None:
    page = asked(lot, "goals.hourly_pay=25")
    assert "What stays as it was worked out" in page
    assert "Pay for an hour of your own: keeps which lines are listed, bundled or skipped." in page
    assert "goals.hourly_pay" not in page


def test_steps_left_are_told_for_another_standing_bid(lot: tuple[World, Shop, str]) -> None:
    page = asked(lot, "lot.current_bid=100")
    assert "bid steps are left above the bid that stands; the next one adds $" in page
    assert "Bid steps left" not in page, "nothing to compare with: no bid was known"


def test_a_pass_then_says_what_would_change_it(lot: tuple[World, Shop, str]) -> None:
    page = asked(lot, "lot.current_bid=90000")
    assert "Then Pass: do not bid" in page
    assert "if the bid stands at $" in page


def test_without_a_term_there_is_only_the_form(lot: tuple[World, Shop, str]) -> None:
    world, shop, lot_id = lot
    answer = world.browser(shop).get(f"/lots/{lot_id}/what-if")
    assert answer.status_code == 200
    assert "Change what you like" in words(answer.text)
    assert "Then bid" not in words(answer.text)
    assert re.search(r'<form class="form" method="get" action="/lots/\w+/what-if">', answer.text)


def test_what_cannot_be_read_is_asked_back(lot: tuple[World, Shop, str]) -> None:
    world, shop, lot_id = lot
    answer = world.browser(shop).get(f"/lots/{lot_id}/what-if?buying.premium=0.15&goals.confidence=much")
    assert answer.status_code == 422
    page = words(answer.text)
    assert "Some fields could not be read." in page
    assert "did you mean 15%? Then type 15%" in page
    assert "Must be a number." in page
    assert 'value="much"' in answer.text
    meant = world.browser(shop).get(f"/lots/{lot_id}/what-if?buying.premium=0.15&insist:buying.premium=0.15")
    assert meant.status_code == 200
    assert "buyer's premium: 0.15%" in words(meant.text)


def test_the_lot_page_asks_it_with_names_of_its_own(lot: tuple[World, Shop, str]) -> None:
    world, shop, lot_id = lot
    page = world.browser(shop).get(f"/lots/{lot_id}").text
    ids = re.findall(r'\sid="([^"]+)"', page)
    assert len(ids) == len(set(ids)), sorted({one for one in ids if ids.count(one) > 1})
    for target in re.findall(r'<(?:label|a)[^>]*(?:for="|href="#)([^"]+)"', page):
        assert target in ids
    assert page.count('role="img" aria-label="') == 4
    assert not re.search(r"posterior|quantile|lognormal|percentile", page)


def test_draws_of_an_older_form_are_told(world: World, shop: Shop, browser: TestClient) -> None:
    page = said(browser, f"/lots/{fill(world, shop).lot_id}/what-if?buying.freight=120")
    assert "valued by an earlier version of the service" in page
    assert "Then bid" not in page
