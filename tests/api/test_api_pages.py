"""What a seller sees in each state of things: words that say what is so and what to do."""

import re

import pytest
from api_world import Shop, World
from full_shop import fill
from page_reading import said, send, words
from starlette.testclient import TestClient

from models.services.submit_import import submit_import
from models.services.submit_lot import LotAsked, submit_lot
from models.store.records import FileFacts, Upload
from models.store.states import FileState

MANIFEST = ("pallet 9.csv", b"description\nLamp\n")


def test_an_empty_shop_is_told_to_begin_with_its_history(browser: TestClient) -> None:
    assert "First, upload your sold history." in said(browser, "/")
    assert "this lot will wait" in said(browser, "/lots/new")


def test_the_lot_page_begins_with_the_ceiling(world: World, shop: Shop, browser: TestClient) -> None:
    page = said(browser, f"/lots/{fill(world, shop).lot_id}")
    order = [
        "Bid up to", "$720", "falls below 80%", "420 bid steps are left", "the next one adds $1.15", "There is room.",
        "Ask before you bid. If freight is $150 a pallet: $800; if it is $450: $560.",
        "If you pay no tax: $720; with 10%: pass.", "estimate, not a promise", "812 sales of your own", "3 others bid",
        "If you win at $720", "You pay in all $1,100",
        "Half of the time your cash is back by week 9; one time in ten not within 26 weeks.",
        "How surely the cash must come back, 80% (lowest: counts) $720.44",
        "Check before you bid", "Nothing of this brand was sold before on 1 line",
        "True of every lot", "without return", "local rules",
        "a negative quantity", "What this assumes What is yours", "$560 to $800", "pass to $720", "12.5%",
        "$25 from $500", "What if? Ask", "When your cash comes back", "What it may bring", "At other bids",
        "$720 ceiling", "Your hours", "Your backlog",
        "never: grows by 1.5 h a week", "The 3 dearest lines hold 41% of the value", "90% of the doubt",
        "2 lines to list singly, 1 in packs", "1 Desk lamp 1 <b>", "your sales in this category (41)",
        "sell in packs of 3",
    ]  # fmt: skip
    places = [page.find(one) for one in order]
    assert -1 not in places, order[places.index(-1)]
    assert places == sorted(places)


def test_a_pass_says_why(world: World, shop: Shop, browser: TestClient) -> None:
    page = said(browser, f"/lots/{fill(world, shop, 'pass').lot_id}")
    assert "Do not bid Pass Your backlog has no room for this lot." in page
    assert "clears in 31.2 weeks; you allow 26" in page
    assert "One of these alone would make it a bid: if your backlog may take 31.2 weeks to clear instead of" in page
    assert "if freight is $180 a pallet instead of $250." in page
    assert "Expected profit at this bid" not in page, "there is nothing at the ceiling"


def test_lines_are_sorted_by_the_server(world: World, shop: Shop, browser: TestClient) -> None:
    address = f"/lots/{fill(world, shop).lot_id}"

    def numbers(query: str) -> list[str]:
        return re.findall(r'id="line-(\d)"', browser.get(address + query).text)

    assert numbers("") == ["1", "2", "3"], "what brings most comes first"
    assert numbers("?sort=cash_proceeds") == ["3", "2", "1"]
    assert browser.get(address + "?sort=nothing").status_code == 422


def test_nothing_a_file_says_becomes_markup(world: World, shop: Shop, browser: TestClient) -> None:
    page = browser.get(f"/lots/{fill(world, shop).lot_id}").text
    assert "Desk lamp 1 &lt;b&gt;" in page
    assert "<b>" not in page
    assert not re.search(r"<script(?![^>]*src=\"/static/)|\son\w+=|\sstyle=|https?://", page)


def test_a_manifest_with_its_terms_goes_in_by_the_form(world: World, shop: Shop, browser: TestClient) -> None:
    terms = {
        "name": "Pallet 9", "lot.source": "Harbour Lots", "lot.current_bid": "$1,234.50", "lot.pallets": "2",
        "lot.closes_at": "2026-07-01T18:00", "buying.premium": "12.5", "buying.bid_step": "0: 1, 500: 25",
        "buying.rivals": "",
    }  # fmt: skip
    address = send(browser, "/lots", terms, files={"manifest": MANIFEST})
    given = world.client(shop).get(f"/api/v1{address}").json()["settings"]
    assert given == {
        "lot": {
            "source": "Harbour Lots",
            "current_bid": "1234.50",
            "pallets": 2.0,
            "closes_at": "2026-07-01T18:00:00Z",
        },
        "buying": {"premium": 0.125, "bid_step": [["0", "1"], ["500", "25"]]},
    }
    page = browser.get(address).text
    assert "Pallet 9" in words(page)
    assert re.search(r'data-job="\w+"', page), "followed without a reload"
    assert '<meta http-equiv="refresh"' in page, "and where scripts are off"


def test_terms_that_cannot_be_read_are_named_in_words(browser: TestClient) -> None:
    found = re.search(r'name="csrf" content="(\w+)"', browser.get("/").text)
    assert found is not None
    data = {"csrf": found[1], "buying.premium": "a lot", "lot.closes_at": "soon"}
    answer = browser.post("/lots", data=data, files={"manifest": MANIFEST})
    assert answer.status_code == 422
    said_back = words(answer.text)
    assert "Must be a number." in said_back
    assert "Must be a time such as" in said_back
    assert 'name="buying.premium" type="text" value="a lot"' in answer.text, "what was typed is still there"


def test_changed_terms_keep_what_the_form_does_not_show(world: World, shop: Shop, browser: TestClient) -> None:
    full = fill(world, shop)
    with world.store.write() as work:
        work.lots.set_given(shop.id, full.lot_id, {"goals": {"confidence": 0.9}, "buying": {"premium": 0.2}})
    assert 'value="20"' in browser.get(f"/lots/{full.lot_id}").text
    send(browser, f"/lots/{full.lot_id}/evaluations", {"buying.premium": "", "buying.tax_rate": "8"})
    given = world.client(shop).get(f"/api/v1/lots/{full.lot_id}").json()["settings"]
    assert given == {"goals": {"confidence": 0.9}, "buying": {"tax_rate": 0.08}}


def test_unknown_columns_are_asked_for(world: World, shop: Shop, browser: TestClient) -> None:
    with world.store.write() as work:
        lot = submit_lot(work, shop.id, Upload("odd.csv", [b"Artikel\n1\n"]), LotAsked("Odd")).subject
        made = submit_import(work, shop.id, Upload("sold.csv", [b"Artikel\n1\n"])).subject
        for held, upload in ((work.lots, work.lots.require_upload(shop.id, lot.id)),
                             (work.imports, work.imports.require_upload(shop.id, made.id))):  # fmt: skip
            work.uploads.save_facts(shop.id, upload.id, FileFacts({}, ("Artikel", "Preis"), ("title",)))
            held.set_state(shop.id, lot.id if held is work.lots else made.id, FileState.NEEDS_COLUMNS)
    for address, column in ((f"/lots/{lot.id}", "description"), (f"/history/imports/{made.id}", "title")):
        page = browser.get(address).text
        assert "One question first" in page
        assert f'name="column-{column}" required' in page
        assert "<option>Artikel</option>" in page
        assert send(browser, f"{address}/columns", {f"column-{column}": "Artikel", "column-brand": ""}) == address
    client = world.client(shop)
    assert client.get(f"/api/v1/lots/{lot.id}").json()["file"]["mapping"] == {"description": "Artikel"}
    assert client.get(f"/api/v1/sales/imports/{made.id}").json()["file"]["mapping"] == {"title": "Artikel"}


def test_a_failed_file_says_why_and_what_to_do(world: World, shop: Shop, browser: TestClient) -> None:
    with world.store.write() as work:
        lot = submit_lot(work, shop.id, Upload("x.xlsx", [b"x"]), LotAsked("Broken")).subject
        work.lots.fail(shop.id, lot.id, "This file is empty.")
    page = said(browser, f"/lots/{lot.id}")
    assert "This file is empty. Your file is kept." in page


def test_settings_are_kept_by_the_form_and_only_what_was_filled_in(
    world: World, shop: Shop, browser: TestClient
) -> None:
    client = world.client(shop)
    before = {"selling": {"by_category": {"Toys": {"fee_share": 0.2}}}, "buying": {"premium": 0.1}}
    client.put("/api/v1/settings", json=before, headers={"if-match": "*"})
    page = browser.get("/settings").text
    version = re.search(r'name="version" value="(\d+)"', page)
    assert version is not None
    assert 'placeholder="250.00"' in page
    assert re.search(r'name="buying.premium"[^>]*value="10"', page)
    data = {
        "version": version[1],
        "goals.hourly_pay": "18",
        "never.words": "knife\n\nperfume",
        "backlog.hours_per_week": "20",
    }
    assert send(browser, "/settings", data) == "/settings?saved=true"
    assert client.get("/api/v1/settings").json()["given"] == {
        "selling": before["selling"],
        "goals": {"hourly_pay": "18"},
        "never": {"words": ["knife", "perfume"]},
        "backlog": {"hours_per_week": 20.0},
    }
    found = re.search(r'name="csrf" content="(\w+)"', page)
    assert found is not None
    stale = browser.post("/settings", data={**data, "csrf": found[1]})
    assert stale.status_code == 412


def test_history_shows_what_was_learned_and_lets_one_choose(world: World, shop: Shop, browser: TestClient) -> None:
    fill(world, shop)
    fill(world, shop)
    page = said(browser, "/history")
    assert "Version 2 in use 812" in page
    assert "Version 1 kept 812" in page
    send(browser, "/history/models/1/activation", {})
    assert "Version 1 in use 812" in said(browser, "/history")
    send(browser, "/history/trainings", {})
    assert "Version 3 being learned" in said(browser, "/history")


def test_home_lists_the_ceilings(world: World, shop: Shop, browser: TestClient) -> None:
    fill(world, shop)
    fill(world, shop, "pass")
    page = said(browser, "/")
    assert "140 units, 28 hours of listing" in page
    assert re.search(r"Pallet 7 pass .* Pallet 7 .*\$720.00", page)


def test_a_lot_is_removed_for_good(world: World, shop: Shop, browser: TestClient) -> None:
    lot_id = fill(world, shop).lot_id
    assert send(browser, f"/lots/{lot_id}/removal", {}) == "/"
    assert browser.get(f"/lots/{lot_id}").status_code == 404


def test_a_job_is_stopped_from_its_page(world: World, shop: Shop, browser: TestClient) -> None:
    job_id = fill(world, shop).job_id
    assert "Valuing a lot" in said(browser, f"/jobs/{job_id}")
    send(browser, f"/jobs/{job_id}/cancellation", {})
    assert "Cancelled" in said(browser, f"/jobs/{job_id}")


def test_what_to_look_up_first_has_a_form(world: World, shop: Shop, browser: TestClient) -> None:
    lot = f"/lots/{fill(world, shop).lot_id}"
    page = said(browser, lot)
    told = "Line 2: 61% of the lot's value, and its brand was never sold here. A sold price would take 31% off"
    assert page.index("Look up first") < page.index(told)
    assert "would take under 1% off the doubt" in page
    assert "Line 99" not in page, "the manifest has no such line any more"
    assert browser.get(lot).text.count('name="price-1"') == 2
    typed = {"version": "1", "price-1": "$1,012.50", "price-2": "", "price-3": "9,80"}
    leads_to = send(browser, f"{lot}/lines/2", typed)
    assert re.fullmatch(r"/jobs/\w+", leads_to)
    assert "Valuing a lot" in said(browser, leads_to)
    again = browser.get(lot).text
    assert re.findall(r'id="price-2-\d" name="price-\d" value="([^"]*)"', again) == ["1012.50", "9.80", ""]
    assert 'name="version" value="2"' in again


def test_a_line_has_a_page_with_the_sellers_own_choice(world: World, shop: Shop, browser: TestClient) -> None:
    lot = f"/lots/{fill(world, shop).lot_id}"
    page = said(browser, f"{lot}/lines/3")
    assert "Desk lamp 3 <b>" in page
    assert "your sales in this category (41)" in page
    send(browser, f"{lot}/lines/3", {"version": "1", "price-1": "12", "action": "skip"})
    page = browser.get(f"{lot}/lines/3").text
    assert '<option value="skip" selected>' in page
    assert 'value="12.00"' in page
    send(browser, f"{lot}/lines/3", {"version": "2", "price-1": "", "action": ""})
    with world.store.read() as work:
        edit = work.line_edits.require(shop.id, lot.removeprefix("/lots/"), 3)
    assert (edit.looked_up, edit.action, edit.version) == ((), None, 3)


@pytest.mark.parametrize(
    ("typed", "status", "said_so"),
    [
        ({"version": "1", "price-1": "a lot"}, 422, "not an amount of money above zero"),
        ({"version": "1", "price-1": "0"}, 422, "not an amount of money above zero"),
        ({"version": "1", "action": "sell"}, 422, "is one of list, bundle, skip, never"),
        ({"version": "7", "price-1": "12"}, 412, "changed since you read it"),
        ({"price-1": "12"}, 422, "did not come through whole"),
    ],
)
def test_a_form_of_a_line_that_cannot_be_kept_says_why(
    world: World, shop: Shop, browser: TestClient, typed: dict[str, str], status: int, said_so: str
) -> None:
    lot = f"/lots/{fill(world, shop).lot_id}"
    token = re.search(r'name="csrf" content="(\w+)"', browser.get("/").text)
    assert token is not None
    answer = browser.post(f"{lot}/lines/2", data={"csrf": token[1], **typed})
    assert answer.status_code == status
    assert said_so in words(answer.text)
