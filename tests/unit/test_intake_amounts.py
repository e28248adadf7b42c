"""Money and quantities, as files really spell them; the decimal sign is a column's, the currency is never converted."""

import datetime as dt
import math

import pytest

from models.intake.cells.amounts import read_amounts
from models.intake.cells.currencies import contradict, fits, header_marks, marks_in
from models.intake.cells.quantities import read_quantities
from models.intake.cells.reading import BLANK


def amounts(cells, currency="USD", likely=False):
    return read_amounts({"cost": cells}, currency, likely)["cost"]


@pytest.mark.parametrize(
    ("cell", "minor"),
    [
        ("$1,234.50", 123450),
        ("1,234.50", 123450),
        ("1 234.50", 123450),
        ("1\u00a0234.50", 123450),
        ("1'234.50", 123450),
        ("USD 12", 1200),
        ("12.00 USD", 1200),
        ("US$12.00", 1200),
        ("US $12.00", 1200),
        ("-US $12.00", -1200),
        ("$1,012.00 USD", 101200),
        ("12.00 $ US", 1200),
        ("(12.00)", -1200),
        ("($12.00)", -1200),
        ("-12.00", -1200),
        ("-$12.00", -1200),
        ("$-12.00", -1200),
        ("12.00-", -1200),
        ("\u221212", -1200),
        ("12.50 each", 1250),
        ("12.50/ea", 1250),
        (".99", 99),
        ("1,23,456.00", 12345600),
        ("1,234", 123400),
        (12.5, 1250),
        (7, 700),
    ],
)
def test_amounts_with_a_decimal_point(cell, minor: float) -> None:
    read = amounts([cell, "5.25"])
    assert read.minor[0] == minor
    assert read.readings[0].doubt == ""


@pytest.mark.parametrize(
    ("cell", "minor"),
    [
        ("1.234,50 EUR", 123450),
        ("1 234,50", 123450),
        ("€ 1.234,50", 123450),
        ("12,-", 1200),
        ("12,–", 1200),
        ("1.234", 123400),
        ("1.234.567,00", 123456700),
        ("(2,00)", -200),
        (12.5, 1250),
    ],
)
def test_amounts_with_a_decimal_comma(cell, minor: float) -> None:
    assert amounts([cell, "5,25"], "EUR").minor[0] == minor


@pytest.mark.parametrize("cell", ["", "-", "–", "N/A", "n/a", "$ -", "#N/A", "none"])
def test_marks_of_absence_are_blank_and_not_named(cell: str) -> None:
    read = amounts([cell])
    assert math.isnan(read.minor[0])
    assert read.readings[0].doubt == ""


@pytest.mark.parametrize(
    "cell", ["free", "25%", "1.2E+03", "12 / 15", "1,2,3", "call us", "9" * 100, "x" * 5000, dt.date(2026, 1, 2)]
)
def test_what_is_no_amount_is_blank_and_named(cell) -> None:
    read = amounts([cell])
    assert math.isnan(read.minor[0])
    assert read.readings[0].doubt
    assert read.readings[0].done == BLANK


def test_the_decimal_sign_is_the_columns_and_a_contradicting_cell_is_named() -> None:
    read = amounts(["1,50", "2,75", "1.234", "12.50"], "EUR")
    assert read.minor.tolist() == [150, 275, 123400, 1250]
    assert [bool(reading.doubt) for reading in read.readings] == [False, False, False, True]


def test_columns_that_cannot_tell_follow_the_file() -> None:
    read = read_amounts({"cost": ["1,50"], "fees": ["1.234"]}, "EUR", False)
    assert read["fees"].minor[0] == 123400


@pytest.mark.parametrize(
    ("cell", "currency", "likely", "minor"),
    [
        ("1.234", "EUR", False, 123400),  # three digits after a point are no cents
        ("1,234", "USD", True, 123400),
        ("1.234", "KWD", False, 1234),
        ("1,234", "KWD", True, 1234),
        ("1,234", "JPY", False, 1234),
        ("1234", "JPY", False, 1234),
    ],
)
def test_a_single_sign_before_three_digits(cell: str, currency: str, likely: bool, minor: float) -> None:
    assert amounts([cell], currency, likely).minor[0] == minor


def test_currency_marks() -> None:
    assert marks_in("zł 12") == ["zł"]
    assert header_marks("Price (GBP)") == ["gbp"]
    assert header_marks("Preis €") == ["€"]
    assert header_marks("All try inr") == []
    assert header_marks("Price (AU $)") == ["au$"]
    assert header_marks("Grade A $") == ["$"]


def test_the_mark_that_says_most_counts_and_two_currencies_in_one_cell_are_no_amount() -> None:
    read = amounts(["$12.00 AUD", "CAD $7", "C $11.00", "5 US $", "$3"])
    assert read.marks == ["aud", "cad", "c$", "us$", "$"]
    assert read.minor.tolist() == [1200, 700, 1100, 500, 300]
    both = amounts(["€12.00 USD", "5.25"])
    assert math.isnan(both.minor[0])
    assert both.readings[0].doubt == "not an amount of money"
    assert fits("kr", "SEK")
    assert contradict(["$", "c$", "us$"])


@pytest.mark.parametrize(
    ("cell", "units"),
    [
        ("2", 2),
        ("2 EA", 2),
        ("2EA", 2),
        ("2.0", 2),
        ("2,00", 2),
        ("1,200", 1200),
        ("1 200", 1200),
        ("x3", 3),
        ("3x", 3),
        ("3 pcs.", 3),
        ("Qty: 5", 5),
        (4.0, 4),
        (4, 4),
        ("", 1),
        ("-", 1),
        ("N/A", 1),
        ("0", 0),
        ("-2", 0),
        ("(2)", 0),
        ("1.5", 0),
        (1.5, 0),
        ("two", 0),
        ("several", 0),
        ("36000291452", 0),
        ("9" * 400, 0),
        ("10-12", 0),
        ("1e3", 0),
        (dt.date(2026, 1, 2), 0),
    ],
)
def test_quantities(cell, units: int) -> None:
    (reading,) = read_quantities([cell], comma=False)
    assert reading.value == units
    assert bool(reading.doubt) == (units == 0 or (isinstance(cell, str) and cell in ("", "-", "N/A")))


def test_quantities_with_a_decimal_comma() -> None:
    assert [reading.value for reading in read_quantities(["1.200", "2,0", "2,5"], comma=True)] == [1200, 2, 0]


def test_packs_keep_their_stated_quantity_and_are_named() -> None:
    (reading,) = read_quantities(["4 cases"], comma=False)
    assert (reading.value, reading.doubt) == (4, "the quantity may count packs, not units")


@pytest.mark.parametrize(
    ("cell", "minor"),
    [(12.34, 1234), (0.29, 29), (19.99, 1999), (-7, -700), (123456789.01, 12345678901)],
)
def test_typed_numbers_are_what_their_digits_say(cell: float, minor: float) -> None:
    assert amounts([cell]).minor.tolist() == [minor]


@pytest.mark.parametrize("cell", [1e30, 10**400, math.inf, "9" * 13 + ".00"])
def test_what_is_too_large_is_blank_and_named(cell) -> None:
    read = amounts([cell])
    assert math.isnan(read.minor[0])
    assert "too large" in read.readings[0].doubt


@pytest.mark.parametrize(
    ("cell", "minor", "done"),
    [
        ("12.345", 1234, "12.34"),
        ("12.355", 1236, "12.36"),
        (0.125, 12, "0.12"),
        (1.005, 100, "1.00"),
        ("7.1999", 720, "7.20"),
    ],
)
def test_single_amounts_finer_than_the_currency_are_rounded_half_even_and_named(cell, minor: float, done: str) -> None:
    read = amounts([cell, "5.25", "24.00"])
    assert read.minor.tolist() == [minor, 525, 2400]
    assert [bool(reading.doubt) for reading in read.readings] == [True, False, False]
    assert read.readings[0].done == f"rounded to {done}"
    assert not read.finer


def test_a_column_of_finer_amounts_is_read_in_full() -> None:
    read = amounts([0.0375, 0.0125, 1.005, 2])
    assert read.minor == pytest.approx([3.75, 1.25, 100.5, 200])
    assert read.finer
    assert [reading.doubt for reading in read.readings] == [""] * 4


def test_a_currency_without_decimals_says_so() -> None:
    (reading,) = amounts(["12.5"], "JPY").readings
    assert (reading.value, reading.doubt, reading.done) == (12, "JPY has no decimals", "rounded to 12")


@pytest.mark.parametrize("cell", ["3 EA", "3EA", "12 each", "2 Stk.", "4 units"])
def test_a_count_is_no_amount(cell: str) -> None:
    read = amounts([cell, "5.25"])
    assert math.isnan(read.minor[0])
    assert "no amount" in read.readings[0].doubt or "not an amount" in read.readings[0].doubt


@pytest.mark.parametrize("filler", ["99999999999", 99999999999, "9999999999.99", "9,999,999.99"])
def test_a_filler_among_prices_is_blank_and_named(filler) -> None:
    read = amounts([filler, "5.25", "24.00", "8.00", "12.00", "9.50"])
    assert math.isnan(read.minor[0])
    assert "too large" in read.readings[0].doubt


@pytest.mark.parametrize("cells", [["9999999.00", "5.25"], ["99999999", "4.00"], ["1750000.00", "2.00", "3.00"]])
def test_a_filler_beside_few_prices_is_blank_and_named(cells) -> None:
    read = amounts(cells)
    assert math.isnan(read.minor[0])
    assert read.readings[0].doubt


def test_what_the_seller_says_of_thousands_is_about_the_cells_that_were_open() -> None:
    cells = {"cost": ["1,200", "20,00"]}
    for comma, minor in ((None, 120), (True, 120), (False, 120000)):
        read = read_amounts(cells, "EUR", True, comma)["cost"]
        assert read.minor.tolist() == [minor, 2000]
        assert [reading.doubt for reading in read.readings] == ["", ""]
    assert read_amounts({"cost": ["1.200", "20.00"]}, "USD", False, True)["cost"].minor.tolist() == [120000, 2000]


def test_dear_goods_are_no_fillers() -> None:
    assert amounts(["2450000.00", "0.05", "24.00", "8.00", "12.00"]).minor[0] == 245000000


@pytest.mark.parametrize(
    ("cells", "currency", "likely", "unsettled"),
    [
        (["12.345", "24.500"], "USD", False, ("12.345", "24.500")),
        (["12.345", "24"], "USD", False, ("12.345",)),
        (["12.345", "24.00"], "USD", False, ()),  # a point before two digits is a decimal one
        (["1.250", "24.00"], "USD", False, ("1.250",)),  # but nobody writes the last zero of 1.25
        (["1.250", "0.125", "24.00"], "USD", False, ()),  # except in a column of three decimals
        (["12.345", "24,00"], "USD", False, ()),
        (["1,250", "24,00"], "EUR", True, ("1,250",)),  # so with a comma, in a column of decimal commas
        (["1,250", "0,125", "24,00"], "EUR", True, ()),
        (["12,345", "24,00"], "EUR", True, ()),
        (["12,345", "24"], "USD", False, ()),
        (["12.345", "24"], "USD", True, ()),
        (["12.345", "24"], "EUR", False, ()),
        (["1.234", "2500"], "EUR", True, ("1.234",)),  # a thousand with a sign and one without
        (["1.234", "2500"], "JPY", False, ()),
    ],
)
def test_three_digits_after_a_point_that_nothing_settles(cells, currency, likely, unsettled) -> None:
    assert amounts(cells, currency, likely).unsettled == unsettled


@pytest.mark.parametrize(("comma", "minor"), [(False, [1234, 2400]), (True, [1234500, 2400])])
def test_the_seller_settles_them(comma: bool, minor: list[float]) -> None:
    assert read_amounts({"cost": ["12.345", "24"]}, "USD", False, comma)["cost"].minor.tolist() == minor
