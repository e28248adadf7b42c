"""What services refuse before anything is stored, and what they make of texts and secrets."""

import datetime as dt

import pytest

from models.services.frozen_question import LARGEST_SEED, FrozenQuestion, checked_seed
from models.services.idempotency import request_fingerprint
from models.services.named_columns import checked_headers, checked_mapping
from models.services.plain_text import plain_text, storable
from models.services.reckoned_day import reckoned_day
from models.services.secret import form_token, hashed, new_secret, same_form_token
from models.values.errors import Rejected
from models.values.lines import LINE_COLUMNS
from models.values.sales import SALES_COLUMNS


def test_a_mapping_names_known_columns() -> None:
    given = {"title": "Artikel", "sold_price": "Erlös", "sold_price_is": "row"}
    assert checked_mapping(given, SALES_COLUMNS) == given


@pytest.mark.parametrize(
    ("mapping", "columns"),
    [
        ({"price": "X"}, SALES_COLUMNS),
        ({"title": " "}, SALES_COLUMNS),
        ({"title": "a\0b"}, SALES_COLUMNS),
        ({"title": "x" * 501}, SALES_COLUMNS),
        ({"sold_price_is": "lot"}, SALES_COLUMNS),
        ({"sold_price_is": "row"}, LINE_COLUMNS),
    ],
)
def test_a_mapping_that_cannot_be_followed_names_its_key(mapping: dict[str, str], columns: tuple[str, ...]) -> None:
    with pytest.raises(Rejected) as refused:
        checked_mapping(mapping, columns)
    assert set(refused.value.faults) == set(mapping)


@pytest.mark.parametrize("seed", [-1, LARGEST_SEED + 1])
def test_a_seed_fits_json(seed: int) -> None:
    with pytest.raises(Rejected):
        checked_seed(seed)


def test_no_seed_is_the_default() -> None:
    assert (checked_seed(None), checked_seed(0), checked_seed(LARGEST_SEED)) == (1, 0, LARGEST_SEED)


def test_a_frozen_question_survives_its_job() -> None:
    question = FrozenQuestion(({"buying": {"premium": 0.1}}, {}, {"currency": "EUR"}), 3, 7, dt.date(2026, 7, 1), "UTC")
    assert FrozenQuestion.of_payload(question.as_payload()) == question


def test_texts_become_one_storable_line() -> None:
    assert plain_text("  Pallet\t17\0\n back\u202eward ", 15) == "Pallet 17 back"
    assert storable("Halle 4", "The name") == "Halle 4"
    for text in ("a\0", "\ud800"):
        with pytest.raises(Rejected):
            storable(text, "The name")


def test_secrets_are_long_and_different() -> None:
    one, two = new_secret("link"), new_secret("link")
    assert one != two
    assert one.startswith("link_")
    assert len(one) >= 43
    assert hashed(one) != hashed(two)
    assert one not in hashed(one)


def test_a_form_token_belongs_to_one_session_and_key() -> None:
    token = form_token("key", "session")
    assert same_form_token("key", "session", token)
    assert not same_form_token("key", "other", token)
    assert not same_form_token("other", "session", token)


def test_requests_are_told_apart_by_every_part() -> None:
    asked = [
        ("POST", "/a", b"x"),
        ("PUT", "/a", b"x"),
        ("POST", "/b", b"x"),
        ("POST", "/a", b"y"),
        ("POST", "/ax", b""),
    ]
    prints = {request_fingerprint(method, path, body) for method, path, body in asked}
    prints |= {request_fingerprint("POST", "/a", b"x", b""), request_fingerprint("POST", "/a", b"", b"x")}
    assert len(prints) == 7
    assert request_fingerprint("POST", "/a", b"x") in prints


@pytest.mark.parametrize("header", ["artikel", " Artikel ", "ARTIKEL:"])
def test_a_heading_of_the_file_is_found_however_it_is_written(header: str) -> None:
    checked_headers({"title": header, "sold_price_is": "row"}, ["Artikel", "Preis"])
    checked_headers({"title": "anything"}, [])  # of a file that was never read nothing is known


def test_a_heading_the_file_does_not_have_is_named() -> None:
    with pytest.raises(Rejected, match="no heading 'Erloes'") as refused:
        checked_headers({"title": "Artikel", "sold_price": "Erloes"}, ["Artikel", "Preis"])
    assert set(refused.value.faults) == {"sold_price"}


def test_a_reckoned_day_lies_within_reason() -> None:
    today = dt.date(2026, 7, 1)
    for day in (None, dt.date(2000, 1, 1), dt.date(2028, 7, 1)):
        assert reckoned_day(day, today) == day
    for day in (dt.date(1999, 12, 31), dt.date(2028, 7, 2)):
        with pytest.raises(Rejected, match=f"between 2000-01-01 and 2028-07-01, not {day}"):
            reckoned_day(day, today)


def test_what_a_history_was_read_as_can_be_given_back_whole() -> None:
    named = {"title": "Item", "shipping": "Postage", "tax": "VAT", "shipping_is": "paid", "decimals_are": "point"}
    assert checked_mapping(named, SALES_COLUMNS) == named
    with pytest.raises(Rejected, match="no such column"):
        checked_mapping({"shipping": "Postage"}, LINE_COLUMNS)
