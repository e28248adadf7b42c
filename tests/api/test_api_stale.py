"""What a page says when the shop has moved on since something was worked out, or when learning went wrong."""

import datetime as dt
import re

import pytest
from api_world import Shop, World
from full_shop import fill
from page_reading import said, send
from starlette.testclient import TestClient

from models.intake.history import read_history
from models.services.clock import utc_now
from models.services.join_sales import join_sales, keep_joined
from models.services.staleness import Stale, is_stale
from models.services.submit_import import submit_import
from models.services.submit_lot import LotAsked, submit_lot
from models.services.submit_training import submit_training
from models.store.queries.model_versions import Fitted
from models.store.records import FileFacts, Upload
from models.store.states import FileState, JobState, ModelState, Queue
from models.values.sale_parts import SalePart

SETTINGS = "Your settings changed since this was worked out: value it again."


def give(world: World, shop: Shop, **groups: dict[str, object]) -> None:
    answer = world.client(shop).put("/api/v1/settings", json=groups, headers={"if-match": "*"})
    assert answer.status_code == 200


def more_sales(world: World, shop: Shop) -> str:
    """An import of two rows that was read; its id."""
    with world.store.write() as work:
        made = submit_import(work, shop.id, Upload("new.csv", [b"-"])).subject
        work.imports.set_state(shop.id, made.id, FileState.READY)
    read_sales_of(world, shop, made.id, b"title,sold_price\nLamp,12\nSofa,90\n")
    return made.id


def read_sales_of(world: World, shop: Shop, import_id: str, content: bytes) -> None:
    """An import is read, and this is what it says."""
    part = SalePart.plain(read_history(content, "new.csv", {}, "USD").sales)
    with world.store.write() as work:
        keep_joined(work, shop.id, import_id, part, join_sales(work, shop.id, import_id, part))


def end_training(world: World, shop: Shop, reason: str | None = None) -> None:
    """The newest training fails with a reason, or ends well without one."""
    with world.store.write() as work:
        version = work.models.page(shop.id, 1, None).items[0]
        held = work.claims.claim_next(Queue.LONG)
        assert held is not None
        assert held.subject_id == version.id
        if reason:
            work.models.fail(shop.id, version.id, reason)
        else:
            facts = {"rows": work.sales.count(shop.id), "change": work.sales.last_change(shop.id)}
            facts["known_until"] = "2026-06-29"
            work.models.save_fitted(shop.id, version.id, Fitted(b"m", "f" * 64, 814, {}, facts))
        work.claims.end(held, JobState.FAILED if reason else JobState.DONE, reason)


def quiet(world: World) -> None:
    """Nothing is being worked on any more."""
    with world.store.write() as work:
        while job := work.claims.claim_next(Queue.QUICK):
            work.claims.end(job, JobState.DONE, None)
        while job := work.claims.claim_next(Queue.LONG):
            work.claims.end(job, JobState.DONE, None)


@pytest.fixture
def lot(world: World, shop: Shop) -> str:
    """The address of a lot that was worked out under everything as it stands."""
    lot_id = fill(world, shop).lot_id
    quiet(world)
    return f"/lots/{lot_id}"


def test_nothing_is_said_while_nothing_changed(browser: TestClient, lot: str) -> None:
    assert "since this was worked out" not in said(browser, lot)
    assert "since" not in said(browser, "/")


def test_changed_settings_are_said_above_the_ceiling(world: World, shop: Shop, browser: TestClient, lot: str) -> None:
    give(world, shop, goals={"hourly_pay": 40})
    page = said(browser, lot)
    assert page.index(SETTINGS) < page.index("Value it again") < page.index("Bid up to")
    assert re.search(r"Pallet 7 .*\$720.00 settings changed since", said(browser, "/"))
    kept = world.client(shop).get(f"/api/v1{lot}").json()["settings"]
    assert send(browser, f"{lot}/evaluations", {}) == lot
    assert world.client(shop).get(f"/api/v1{lot}").json()["settings"] == kept, "the button changes no terms"
    assert SETTINGS not in said(browser, lot), "it is being worked out"
    give(world, shop)
    quiet(world)
    assert SETTINGS not in said(browser, lot), "given back: the same as then"


def test_settings_that_make_no_difference_to_a_lot_are_no_news(world: World, shop: Shop, lot: str) -> None:
    give(world, shop, lot={"pallets": 1}, buying={"freight": 250})
    with world.store.read() as work:
        assert is_stale(work, shop.id, work.lots.require(shop.id, lot.removeprefix("/lots/"))) == ()


def test_another_model_in_use_is_said(world: World, shop: Shop, browser: TestClient, lot: str) -> None:
    send(browser, "/history/trainings", {})
    end_training(world, shop)
    assert "in use now" not in said(browser, lot), "fitted is not in use"
    send(browser, "/history/models/2/activation", {})
    assert "Version 2 of what was learned is in use now; this was worked out with version 1" in said(browser, lot)
    assert "your sales were learned anew since" in said(browser, "/")


def test_typed_in_lines_count_too(world: World, shop: Shop, browser: TestClient, lot: str) -> None:
    send(browser, f"{lot}/lines/2", {"version": "1", "price-1": "12"})
    quiet(world)
    assert "What you typed in for its lines changed" in said(browser, lot)


def test_new_sales_are_said_until_a_version_that_knows_them_is_in_use(
    world: World, shop: Shop, browser: TestClient, lot: str
) -> None:
    imported = f"/history/imports/{more_sales(world, shop)}"
    told = "Version 1, which is in use, does not know 2 rows of your sold history yet."
    for address in ("/history", imported, lot, "/"):
        page = said(browser, address)
        assert told in page, address
        assert "Learn again from all sales" in page, address
    with world.store.read() as work:
        reasons = is_stale(work, shop.id, work.lots.require(shop.id, lot.removeprefix("/lots/")))
    assert reasons == (Stale.SALES,)
    assert "Value it again" not in said(browser, lot).partition("Bid up to")[0], "it would change nothing yet"
    send(browser, "/history/trainings", {})
    assert "They are being learned now" in said(browser, imported)
    end_training(world, shop)
    assert "Use version 2" in said(browser, imported)
    send(browser, "/history/models/2/activation", {})
    assert told not in said(browser, imported)


def test_sales_that_changed_are_said_with_their_number(world: World, shop: Shop, browser: TestClient, lot: str) -> None:
    import_id = more_sales(world, shop)
    send(browser, "/history/trainings", {})
    end_training(world, shop)
    send(browser, "/history/models/2/activation", {})
    told = "Version 2, which is in use, "
    assert told not in said(browser, lot)
    read_sales_of(world, shop, import_id, b"title,sold_price\nLamp,12\nSofa,90\n")
    assert told not in said(browser, lot), "read again, the same"
    read_sales_of(world, shop, import_id, b"title,sold_price\nLamp,12\nSofa,75\nMug,3\n")
    both = "does not know 1 row of your sold history yet and learned before 1 row of your sold history changed."
    assert told + both in said(browser, lot)
    read_sales_of(world, shop, import_id, b"title,sold_price\nLamp,12\n")
    for address in ("/history", f"/history/imports/{import_id}", lot, "/"):
        page = said(browser, address)
        assert told + "learned before 1 row of your sold history changed." in page, address
        assert "Learn again from all sales" in page, address
    assert "sold history changed since" in said(browser, "/")
    send(browser, "/history/trainings", {})
    end_training(world, shop)
    send(browser, "/history/models/3/activation", {})
    assert "which is in use, " not in said(browser, lot)


def test_a_failed_first_training_says_so_and_why(world: World, shop: Shop, browser: TestClient) -> None:
    imported = more_sales(world, shop)
    with world.store.write() as work:
        submit_training(work, shop.id)
        waiting = submit_lot(work, shop.id, Upload("m.csv", [b"-"]), LotAsked("Waits")).subject
        work.lots.set_state(shop.id, waiting.id, FileState.NEEDS_MODEL)
    assert "Learning from your sold history failed" not in said(browser, "/"), "it goes on"
    end_training(world, shop, "Too few sales to learn from: 2.")
    for address in ("/", f"/lots/{waiting.id}", "/history", f"/history/imports/{imported}", "/lots/new"):
        page = said(browser, address)
        assert "Learning from your sold history failed. Too few sales to learn from: 2." in page, address
        assert "Learn again" in page, address
        assert not re.search("being (read|learned)", page), address
    send(browser, "/history/trainings", {})
    assert "being read and learned from" in said(browser, "/")
    assert "It is being learned from now" in said(browser, f"/lots/{waiting.id}")


def test_a_later_failure_leaves_the_version_in_use(world: World, shop: Shop, browser: TestClient, lot: str) -> None:
    send(browser, "/history/trainings", {})
    end_training(world, shop, "The disk is full.")
    assert "failed. The disk is full. Version 1 stays in use." in said(browser, "/history")
    with world.store.read() as work:
        assert work.models.page(shop.id, 1, None).items[0].state is ModelState.FAILED


def test_a_version_knows_until_its_last_sale(world: World, shop: Shop, browser: TestClient, lot: str) -> None:
    page = said(browser, "/history")
    assert "812 Sun 28 Jun 2026" in page
    assert "30 Jun 2026" not in page, "the day it was asked for is another"


def test_a_cancelled_lot_is_valued_again_by_a_button(world: World, shop: Shop, browser: TestClient) -> None:
    with world.store.write() as work:
        made = submit_lot(work, shop.id, Upload("m.csv", [b"description\nLamp\n"]), LotAsked("Stopped"))
    send(browser, f"/jobs/{made.job.id}/cancellation", {})
    address = f"/lots/{made.subject.id}"
    page = said(browser, address)
    assert "Valuing this lot was cancelled. Your file is kept." in page
    assert "Mend it" not in page
    assert re.search(r"Stopped .*cancelled", said(browser, "/"))
    assert send(browser, f"{address}/evaluations", {}) == address
    assert world.client(shop).get(f"/api/v1{address}").json()["state"] == "reading", "its manifest was never read"


def test_a_cancelled_second_valuation_keeps_the_first(world: World, shop: Shop, browser: TestClient, lot: str) -> None:
    send(browser, f"{lot}/evaluations", {})
    job = world.client(shop).get("/api/v1/jobs").json()["items"][0]
    send(browser, f"/jobs/{job['id']}/cancellation", {})
    page = said(browser, lot)
    assert "cancelled. Your file is kept; what follows is from before." in page
    assert "$720" in page


def test_what_closes_next_is_listed_first(world: World, shop: Shop, browser: TestClient) -> None:
    now = utc_now()
    with world.store.write() as work:
        for name, hours in (("Late", 48), ("Over", -2), ("Soon", 3), ("Unknown", None)):
            lot: dict[str, object] = {"current_bid": "310"}
            if hours is not None:
                lot["closes_at"] = (now + dt.timedelta(hours=hours)).isoformat()
            submit_lot(work, shop.id, Upload("m.csv", [b"-"]), LotAsked(name, {"lot": lot}))
    rows = re.findall(r'<a href="/lots/\w+"><bdi>(\w+)</bdi></a>', browser.get("/").text)
    assert rows == ["Soon", "Late", "Unknown", "Over"]
    page = said(browser, "/")
    assert "$310.00" in page
    assert "closed" in page


def test_headings_of_a_read_file_are_offered_to_choose_from(browser: TestClient, lot: str) -> None:
    page = browser.get(lot).text
    assert "choose the right one" in page
    assert "<option selected>Item</option>" in page
    assert "<option>Count</option>" in page


def test_a_file_whose_headings_were_not_kept_asks_for_them(world: World, shop: Shop, browser: TestClient) -> None:
    made = more_sales(world, shop)
    with world.store.write() as work:
        work.imports.save_facts(shop.id, made, FileFacts({"title": "Item"}, (), (), 2, 2, 0))
    page = browser.get(f"/history/imports/{made}").text
    assert 'name="column-title" value="Item"' in page
