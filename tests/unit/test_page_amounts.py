"""Numbers as people type them: read as they are meant, asked back where they may mean two things."""

from decimal import Decimal

import pytest

from api.http.pages.doubts import doubts_of
from api.http.pages.spelled import plain_number, read_back, step_parts, too_fine
from api.http.pages.words import amount, money
from models.values.errors import Rejected
from models.values.fields import Unit
from models.values.given import read_given


@pytest.mark.parametrize(
    ("typed", "number"),
    [
        ("$1,234.50", "1234.50"), ("1.234,56", "1234.56"), ("1.234.567", "1234567"), ("1 234,5", "1234.5"),
        ("12,345", "12345"), ("0,08", "0.08"), (".5", "0.5"), ("5.", "5"), ("-3", "-3"), ("1.500", "1.500"),
    ],
)  # fmt: skip
def test_both_ways_of_parting_thousands_are_read(typed: str, number: str) -> None:
    assert plain_number(typed) == Decimal(number)


@pytest.mark.parametrize("typed", ["1e5", "1_000", "nan", "inf", "1,2,3", "1.2.3", "--1", "12 apples", "1" * 16])
def test_what_people_do_not_write_is_no_number(typed: str) -> None:
    assert plain_number(typed) == typed


@pytest.mark.parametrize(
    ("typed", "currency", "reason"),
    [
        ("1.500", "USD", "USD has 2 digits after the point: write 1500 or 1.50"),
        ("$3.000", "EUR", "EUR has 2 digits after the point: write 3000 or 3.00"),
        ("12.345", "JPY", "JPY has whole amounts only: write 12345 or 12"),
        ("30000,50", "JPY", "JPY has whole amounts only"),
        ("1.2345", "USD", "USD has 2 digits after the point"),
        ("1.5000", "USD", ""), ("30000.00", "JPY", ""), ("1.500", "KWD", ""), ("1.50", "USD", ""),
        ("1.234,56", "USD", ""), ("1,500", "USD", ""), ("1500", "JPY", ""), ("much", "USD", ""),
    ],
)  # fmt: skip
def test_an_amount_with_too_many_digits_is_asked_back(typed: str, currency: str, reason: str) -> None:
    assert too_fine(typed, currency) == reason


def test_every_field_of_an_amount_asks() -> None:
    typed = {"buying.freight": "1.500", "buying.bid_step": "0: 10, 1.000: 25", "goals.cash_limit": "1e5"}
    doubts = doubts_of(typed, typed, "USD", "UTC")
    assert doubts["buying.freight"].reason.endswith("write 1500 or 1.50")
    assert doubts["buying.bid_step"].reason.endswith("write 1000 or 1.00")
    assert doubts["goals.cash_limit"].reason == "must be a number"
    plain = {"buying.freight": "1.234,50", "buying.premium": "12.500", "backlog.hours_per_week": "1.250"}
    assert doubts_of(plain, plain, "USD", "UTC") == {}


def test_units_that_wait_are_whole() -> None:
    assert doubts_of({"backlog.waiting_units": "12.5"}, ["backlog.waiting_units"], "USD", "UTC")
    assert not doubts_of({"backlog.waiting_units": "12"}, ["backlog.waiting_units"], "USD", "UTC")


def test_words_are_read_in_any_case() -> None:
    assert read_back(Unit.RIVALS, " Few ", "UTC") == "few"
    assert read_back(Unit.RIVALS, "4", "UTC") == "4"


@pytest.mark.parametrize(
    ("typed", "pairs"),
    [
        ("0: 1,500: 25", [["0", " 1"], ["500", " 25"]]),
        ("0: 10, 1,000: 25", [["0", " 10"], ["1,000", " 25"]]),
    ],
)
def test_commas_part_steps_or_thousands(typed: str, pairs: list[list[str]]) -> None:
    assert step_parts(typed) == pairs


def test_amounts_are_told_with_their_currencys_digits() -> None:
    assert (money("1.5", "USD"), money("1E+5", "USD"), money("1.500", "USD")) == ("$1.50", "$100,000", "$1.50")
    assert (amount("7", "USD"), amount("7.00", "JPY"), money("1.2345", "KWD")) == ("$7.00", "¥7", "KWD\xa01.234")


def test_a_number_that_would_fill_the_memory_is_refused() -> None:
    with pytest.raises(Rejected, match="20 digits after the point"):
        read_given({"buying": {"freight": "1e-999999999"}})
