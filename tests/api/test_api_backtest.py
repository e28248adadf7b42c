"""How near a model version would have been: what programs get, what its page says, and the line beside a ceiling."""

from typing import Any

from api_world import Shop, World
from backtest_document import TOO_FEW, backtest_document, beaten_document
from full_shop import Full, fill
from page_reading import said, words
from starlette.testclient import TestClient

from models.services.submit_backtest import submit_backtest
from models.store.states import JobKind, JobState, Queue

OFFERED = "How near it would have been"


def with_backtest(world: World, shop: Shop, found: dict[str, Any] | None) -> Full:
    full = fill(world, shop)
    if found is not None:
        with world.store.write() as work:
            work.models.save_backtest(shop.id, work.models.require(shop.id, full.number).id, found)
    return full


def test_programs_get_it_with_the_version(world: World, shop: Shop) -> None:
    number = with_backtest(world, shop, None).number
    client = world.client(shop)
    assert client.get(f"/api/v1/model-versions/{number}").json()["backtest"] is None
    found = backtest_document()
    with world.store.write() as work:
        work.models.save_backtest(shop.id, work.models.require(shop.id, number).id, found)
    version = client.get(f"/api/v1/model-versions/{number}").json()
    assert version["backtest"] == found
    assert list(version["backtest"]) == list(found), "documents keep the order of their keys"
    assert version["state"] == "active"
    listed = client.get("/api/v1/model-versions").json()["items"]
    assert [one["number"] for one in listed] == [number]
    assert "backtest" not in listed[0], "a list would be long"


def test_its_page_says_it_in_words_and_tables(world: World, shop: Shop, browser: TestClient) -> None:
    number = with_backtest(world, shop, backtest_document()).number
    page = said(browser, f"/history/models/{number}")
    order = [
        f"Model version {number}", "In use.", "Learned from 812 sales, known until Sun 28 Jun 2026.", OFFERED,
        "On 1,761 of your sales of goods bought in bulk since 22 Jan 2025 it came within 1% of the money", "Money",
        "It expected $36,737 in all and $37,256 came in: 1% too low.",
        "Against simpler ways", "This service", "$41,215",
        "The latest 1 lot, one by one", "LOT-14 <b>", "$1,569 and $2,652", "$2,966 above",
        "Every day it went back to", "Wed 22 Jan 2025", "2,926", "0 of 1", "43% (expected 32%)", "Fri 21 Feb 2025",
        "none to judge",
    ]  # fmt: skip
    places = [page.find(one) for one in order]
    assert -1 not in places, order[places.index(-1)]
    assert places == sorted(places)
    assert "Mind this." not in page
    assert "<b>" not in browser.get(f"/history/models/{number}").text


def test_the_history_leads_to_it(world: World, shop: Shop, browser: TestClient) -> None:
    number = with_backtest(world, shop, backtest_document()).number
    assert f'<a href="/history/models/{number}">' in browser.get("/history").text


def test_a_simpler_way_that_was_nearer_stands_on_top(world: World, shop: Shop, browser: TestClient) -> None:
    full = with_backtest(world, shop, beaten_document())
    page = said(browser, f"/history/models/{full.number}")
    assert "Mind this. A fixed share of the tag was nearer on your goods." in page
    assert page.index("Mind this.") < page.index("It went back to")
    assert "A fixed share of the tag was nearer." in said(browser, f"/lots/{full.lot_id}")


def test_a_lot_says_it_beside_its_ceiling(world: World, shop: Shop, browser: TestClient) -> None:
    full = with_backtest(world, shop, backtest_document())
    page = browser.get(f"/lots/{full.lot_id}").text
    text = words(page)
    line = (
        "On 1,761 of your sales of goods bought in bulk since 22 Jan 2025 it came within 1% of the money; one lot"
        " alone was off by 15%"
    )
    assert line in text
    assert text.index("812 sales of your own") < text.index(line) < text.index("If you win at")
    assert f'<a href="/history/models/{full.number}#honest">How that was tested</a>' in page


def test_before_it_is_known_nothing_is_claimed(world: World, shop: Shop, browser: TestClient) -> None:
    full = with_backtest(world, shop, None)
    assert "came within" not in said(browser, f"/lots/{full.lot_id}")
    page = said(browser, f"/history/models/{full.number}")
    assert "It was not tested on your own sales." in page


def test_too_few_sales_are_said_plainly(world: World, shop: Shop, browser: TestClient) -> None:
    full = with_backtest(world, shop, TOO_FEW)
    page = said(browser, f"/history/models/{full.number}")
    assert "It could not be tested on your own sales yet. 31 sales say when they sold" in page
    assert "Every day it went back to" not in page
    assert "came within" not in said(browser, f"/lots/{full.lot_id}")


def test_its_page_follows_the_job_and_tells_how_it_failed(world: World, shop: Shop, browser: TestClient) -> None:
    full = with_backtest(world, shop, None)
    with world.store.write() as work:
        job = submit_backtest(work, shop.id, work.models.require(shop.id, full.number).id, [full.import_id])
    assert job.kind is JobKind.BACKTEST
    page = browser.get(f"/history/models/{full.number}").text
    assert f'data-job="{job.id}"' in page
    assert "It is being tested on your own sales now; lots are valued meanwhile." in words(page)
    assert "Testing on your own sales" in said(browser, f"/jobs/{job.id}")
    with world.store.write() as work:
        while (claimed := work.claims.claim_next(Queue.LONG)) is not None and claimed.id != job.id:
            pass
        assert claimed is not None
        work.claims.end(claimed, JobState.FAILED, "There was not enough memory for this file.")
    text = said(browser, f"/history/models/{full.number}")
    assert "It could not be tested on your own sales: There was not enough memory" in text
    assert world.client(shop).get(f"/api/v1/model-versions/{full.number}").json()["state"] == "active"
