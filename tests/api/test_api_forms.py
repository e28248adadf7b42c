"""Forms of pages: what is asked back, what is kept as typed, and what is made once."""

import re

import pytest
from api_world import Shop, World
from full_shop import fill
from page_reading import send, words
from starlette.testclient import TestClient

from api.http.pages.cautions import parted
from api.http.pages.setting_words import setting_range, setting_value

MANIFEST = {"manifest": ("m.csv", b"description\nLamp\n")}


def proof(browser: TestClient, address: str = "/lots/new") -> dict[str, str]:
    """What a drawn form carries beside its fields."""
    text = browser.get(address).text
    csrf = re.search(r'name="csrf" content="(\w+)"', text)
    key = re.search(r'name="form-key" value="([\w-]+)"', text)
    assert csrf is not None
    assert key is not None
    return {"csrf": csrf[1], "form-key": key[1]}


def settings_form(browser: TestClient) -> dict[str, str]:
    version = re.search(r'name="version" value="(\d+)"', browser.get("/settings").text)
    assert version is not None
    return proof(browser) | {"version": version[1]}


@pytest.mark.parametrize(
    ("key", "typed", "asked"),
    [
        ("buying.premium", "0.15", "0.15%: did you mean 15%?"),
        ("buying.tax_rate", "0,08", "0.08%: did you mean 8%?"),
        ("selling.fee_share", ".12", "0.12%: did you mean 12%?"),
        ("goals.return_on_cash", "0.3", "0.3%: did you mean 30%?"),
        ("lot.missing_share", "0.02", "0.02%: did you mean 2%?"),
    ],
)
def test_a_percent_that_looks_like_a_fraction_is_asked_back(
    world: World, shop: Shop, browser: TestClient, key: str, typed: str, asked: str
) -> None:
    form = settings_form(browser) | {key: typed, "goals.hourly_pay": "18"}
    answer = browser.post("/settings", data=form)
    assert answer.status_code == 422
    assert asked in words(answer.text)
    assert f'name="{key}" type="text" value="{typed}"' in answer.text
    assert re.search(r'name="goals.hourly_pay"[^>]*value="18"', answer.text), "the rest is still filled in"
    given = world.client(shop).get("/api/v1/settings").json()["given"]
    assert given == {}, "nothing was saved"
    insist = re.search(rf'type="checkbox" name="(insist:{key})" value="([^"]*)"', answer.text)
    assert insist is not None
    assert browser.post("/settings", data=form | {insist[1]: insist[2]}).status_code == 303
    group, _, name = key.partition(".")
    kept = world.client(shop).get("/api/v1/settings").json()["given"][group][name]
    assert kept == pytest.approx(float(typed.replace(",", ".")) / 100)


@pytest.mark.parametrize(
    ("key", "typed"),
    [
        ("buying.premium", "15"), ("buying.premium", "0.15%"), ("buying.premium", "0"), ("lot.missing_share", "0.5"),
        ("buying.payment_surcharge", "0.5"), ("buying.freight", "0.5"), ("effort.minutes_repeat", "0.2"),
    ],
)  # fmt: skip
def test_what_is_plausible_is_not_asked_back(browser: TestClient, key: str, typed: str) -> None:
    assert browser.post("/settings", data=settings_form(browser) | {key: typed}).status_code == 303


def test_insisting_holds_for_what_was_typed_only(browser: TestClient) -> None:
    form = settings_form(browser) | {"buying.premium": "0.2", "insist:buying.premium": "0.15"}
    assert browser.post("/settings", data=form).status_code == 422


def test_insisting_is_not_forgotten_while_another_field_is_asked_about(browser: TestClient) -> None:
    form = settings_form(browser) | {"buying.premium": "0.15", "insist:buying.premium": "0.15", "goals.confidence": "x"}
    answer = browser.post("/settings", data=form)
    assert answer.status_code == 422
    assert '<input type="hidden" name="insist:buying.premium" value="0.15">' in answer.text


def test_limits_of_percents_are_told_in_percent(browser: TestClient) -> None:
    form = settings_form(browser) | {"buying.premium": "150", "goals.confidence": "30", "buying.bid_step": "5: 1"}
    page = words(browser.post("/settings", data=form).text)
    assert "Must be at most 100%." in page
    assert "Must be at least 50%." in page
    assert "Write one amount, or steps such as 0: 10, 500: 25." in page


def test_a_currency_that_is_none_is_told_with_one_period(browser: TestClient) -> None:
    page = words(browser.post("/settings", data=settings_form(browser) | {"currency": "dollars"}).text)
    assert ".." not in page


def test_a_currency_that_can_no_longer_change_is_asked_about_in_the_form(
    world: World, shop: Shop, browser: TestClient
) -> None:
    fill(world, shop)
    answer = browser.post("/settings", data=settings_form(browser) | {"currency": "EUR", "goals.hourly_pay": "21"})
    assert answer.status_code == 422
    assert "they cannot become EUR." in words(answer.text)
    assert re.search(r'name="goals.hourly_pay"[^>]*value="21"', answer.text)


def test_what_is_usual_stays_in_sight_where_the_value_is_yours(browser: TestClient) -> None:
    send(browser, "/settings", settings_form(browser) | {"buying.premium": "22"})
    page = words(browser.get("/settings").text)
    assert "Share of hammer price; usually 5% to 25%." in page
    assert "If empty: 3%, assumed." in page
    assert "(assumed)" not in re.sub(r"<option[^>]*>[^<]*</option>", "", browser.get("/settings").text)


def test_units_are_said_once_and_in_the_right_number() -> None:
    assert setting_range("effort.minutes_repeat", "USD") == "1 to 3 minutes"
    assert setting_value(1, "effort.minutes_repeat", "USD") == "1 minute"
    assert setting_range("buying.freight", "USD") == "$150 to $450"
    assert setting_range("buying.freight", "EUR") == "", "nobody's practice is known there"
    assert setting_range("goals.confidence", "USD") == ""


def test_the_shop_tells_times_in_its_zone(world: World, shop: Shop, browser: TestClient) -> None:
    assert browser.post("/settings", data=settings_form(browser) | {"time_zone": "Mars/Base"}).status_code == 422
    send(browser, "/settings", settings_form(browser) | {"time_zone": "America/Chicago"})
    assert "<option selected>America/Chicago</option>" in browser.get("/settings").text
    new = words(browser.get("/lots/new").text)
    assert "America/Chicago" in new.partition("When bidding ends")[2][:200], "named beside the field"
    terms = {"lot.closes_at": "2026-07-01T18:00"}
    address = send(browser, "/lots", proof(browser, "/lots/new") | terms, files=MANIFEST)
    given = world.client(shop).get(f"/api/v1{address}").json()["settings"]
    assert given == {"lot": {"closes_at": "2026-07-01T23:00:00Z"}}
    assert "18:00 CDT" in words(browser.get("/").text)


@pytest.mark.parametrize(
    ("address", "data", "said_so"),
    [
        ("/lots", {"name": "Pallet 9", "buying.premium": "12"}, "Choose the manifest first."),
        ("/history/imports", {}, "Choose the file of your sales first."),
    ],
)
@pytest.mark.parametrize("files", [{}, {"manifest": ("", b""), "file": ("", b"")}])
def test_a_form_without_its_file_says_so(
    browser: TestClient, address: str, data: dict[str, str], said_so: str, files: dict[str, tuple[str, bytes]]
) -> None:
    answer = browser.post(address, data=proof(browser, "/lots/new") | data, files=files)
    assert answer.status_code == 422
    assert said_so in words(answer.text)
    for name, text in data.items():
        assert re.search(rf'name="{name}"[^>]*value="{text}"', answer.text), "what was typed is kept"


def test_terms_of_a_lot_are_asked_back_on_its_page(world: World, shop: Shop, browser: TestClient) -> None:
    lot = f"/lots/{fill(world, shop).lot_id}"
    answer = browser.post(f"{lot}/evaluations", data=proof(browser) | {"buying.premium": "0.2", "lot.pallets": "3"})
    assert answer.status_code == 422
    assert "The terms were not changed yet." in words(answer.text)
    assert "0.2%: did you mean 20%?" in words(answer.text)
    assert re.search(r'name="lot.pallets"[^>]*value="3"', answer.text)
    assert world.client(shop).get(f"/api/v1{lot}").json()["settings"] == {}


def test_a_form_sent_twice_makes_one_thing(world: World, shop: Shop, browser: TestClient) -> None:
    full = fill(world, shop)
    lot = f"/lots/{full.lot_id}"
    sent = [
        ("/lots", {"name": "Twice"}, {"files": MANIFEST}),
        ("/history/imports", {}, {"files": {"file": ("s.csv", b"title,sold_price\nLamp,3\n")}}),
        ("/history/trainings", {}, {}),
        (f"{lot}/evaluations", {"buying.premium": "12"}, {}),
        (f"{lot}/lines/2", {"version": "1", "price-1": "12"}, {}),
        (f"{lot}/columns", {"column-description": "Item"}, {}),
        (f"/history/imports/{full.import_id}/columns", {"column-title": "Item"}, {}),
    ]

    def jobs() -> int:
        return len(world.client(shop).get("/api/v1/jobs").json()["items"])

    for address, data, more in sent:
        before, form = jobs(), proof(browser, "/lots/new") | data
        first, again = (browser.post(address, data=form, **more) for _ in range(2))
        assert (first.status_code, again.status_code) == (303, 303), (address, words(again.text))
        assert first.headers["location"] == again.headers["location"]
        assert jobs() == before + 1, address


def test_a_form_filled_in_otherwise_or_drawn_anew_is_another_wish(browser: TestClient) -> None:
    form = proof(browser, "/lots/new")
    made = {
        browser.post("/lots", data=data, files=files).headers["location"]
        for data, files in (
            (form, MANIFEST),
            (form | {"name": "Other"}, MANIFEST),
            (form, {"manifest": ("m.csv", b"description\nSofa\n")}),
            (proof(browser, "/lots/new"), MANIFEST),
        )
    }
    assert len(made) == 4


def test_cautions_of_lines_come_after_the_lots_own_and_together() -> None:
    tags = [{"what": f"Tag ignored: ${no}.00 cannot be a price tag.", "check": "", "line": no} for no in (62, 70)]
    found = parted([tags[0], {"what": "Two currencies.", "check": "Look."}, tags[1]])
    assert [one["what"] for one in found.own] == ["Two currencies."]
    assert [(one.what, len(one.items)) for one in found.of_lines] == [("Tag ignored", 2)]


def test_a_caution_leads_to_its_line_wherever_that_is(world: World, shop: Shop, browser: TestClient) -> None:
    lot = f"/lots/{fill(world, shop).lot_id}"
    page = browser.get(lot).text
    assert f'<a href="{lot}/lines/2">Line 2</a>' in page
    assert "#line-2" not in page
    assert browser.get(f"{lot}/lines/2").status_code == 200


def test_lines_found_by_a_filter_lead_back_to_all(world: World, shop: Shop, browser: TestClient) -> None:
    lot = f"/lots/{fill(world, shop).lot_id}"
    page = browser.get(f"{lot}?filter=nothing+like+it").text
    assert f'<a href="{lot}#lines">All lines</a>' in page
