"""What the page of a lot says of the evaluation before."""

import re

import pytest
from api_world import Shop, World
from page_reading import said
from real_lot import real_lot, work_off
from starlette.testclient import TestClient

SINCE = "Since the last evaluation: "


@pytest.fixture
def real(world: World, shop: Shop) -> str:
    return f"/lots/{real_lot(world, shop)}"


def again(world: World, shop: Shop, lot: str, **asked: object) -> list[dict[str, object]]:
    client = world.client(shop)
    assert client.post(f"/api/v1{lot}/evaluations", json=asked).status_code == 202
    work_off(world)
    found: list[dict[str, object]] = client.get(f"/api/v1{lot}/evaluation").json()["explain"]["changed"]
    return found


def test_a_changed_term_is_said_under_the_ceiling(world: World, shop: Shop, browser: TestClient, real: str) -> None:
    assert SINCE not in said(browser, real), "the first evaluation has none before it"
    found = again(world, shop, real, settings={"buying": {"premium": 0.01}})
    assert [one["what"] for one in found] == ["bid ceiling", "Buyer's premium"]
    told = said(browser, real)
    assert re.search(
        SINCE
        + r"bid ceiling: \$[\d,.]+ \(before: \$[\d,.]+\); "
        + r"Buyer's premium: 1% \(before: 15%\), which alone raises the ceiling by \$[\d,.]+\.",
        told,
    )
    assert told.index("Bid up to") < told.index(SINCE) < told.index("Your hours")
    assert again(world, shop, real) == []
    assert SINCE not in said(browser, real)


def test_many_changes_are_folded(world: World, shop: Shop, browser: TestClient, real: str) -> None:
    goals = {"confidence": 0.7, "horizon_weeks": 20, "hourly_pay": 10}
    found = again(world, shop, real, settings={"buying": {"premium": 0.01}, "goals": goals}, seed=5)
    assert len(found) == 6
    told = said(browser, real)
    assert "and 4 other changes" in told
    for one in ("seed: 5 (before: 1)", "Chance that the cash comes back: 70% (before: 80%)"):
        assert told.count(one) == 1
