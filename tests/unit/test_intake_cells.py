"""Dates, sourcing, weights, minutes and GTINs, as files really spell them."""

import datetime as dt
import math

import pytest

from models.intake.cells.dates import Order, read_dates
from models.intake.cells.gtin import expanded_upc_e, is_valid
from models.intake.cells.gtin_cells import read_gtins
from models.intake.cells.minutes import read_minutes
from models.intake.cells.sourcing import read_sourced, says_assorted, says_cancelled
from models.intake.cells.weights import read_weights
from models.intake.cells.words import read_texts


@pytest.mark.parametrize(
    "cell",
    [
        "2026-07-04",
        "2026/7/4",
        "2026.07.04",
        "20260704",
        20260704,
        "2026-07-04T23:59:59Z",
        "2026-07-04 10:00",
        "04.07.2026",
        "04/07/2026",
        "4/7/26",
        "04-07-2026 10:15 PM",
        "4 Jul 2026",
        "4 July 2026",
        "04-Jul-26",
        "Jul 4, 2026",
        "July 4th, 2026",
        "Jul-04-26 10:03:21 PDT",
        "Sat, 4 Jul 2026 10:00:00 +0000",
        "4. Juli 2026",
        "4 juillet 2026",
        "4 de julio de 2026",
        "46207",
        46207,
        46207.75,
        dt.date(2026, 7, 4),
    ],
)
def test_dates(cell) -> None:
    (reading,) = read_dates([cell], Order.DAY)
    assert (reading.value, reading.doubt) == (dt.date(2026, 7, 4), "")


@pytest.mark.parametrize("cell", ["", "-", "N/A"])
def test_blank_dates(cell: str) -> None:
    assert (read_dates([cell], Order.DAY)[0].value, read_dates([cell], Order.DAY)[0].doubt) == (None, "")


@pytest.mark.parametrize(
    "cell", ["soon", "2026-02-30", "31/31/2026", "1926-01-01", "2026-07", "4 Foo 2026", 7, 1e9, "x" * 999]
)
def test_what_is_no_date_is_blank_and_named(cell) -> None:
    (reading,) = read_dates([cell], Order.DAY)
    assert reading.value is None
    assert reading.doubt


def test_a_cell_that_contradicts_its_column_is_read_as_it_must_be_and_named() -> None:
    odd = read_dates(["25/12/2026"], Order.MONTH)[0]
    assert odd.value == dt.date(2026, 12, 25)
    assert "day first" in odd.doubt


@pytest.mark.parametrize(
    ("words", "code", "named"),
    [
        ("Pallet 7", 1, False),
        ("truckload", 1, False),
        ("liquidation", 1, False),
        ("BULK", 1, False),
        ("single", 0, False),
        ("thrift store", 0, False),
        ("Estate sale", 0, False),
        ("", -1, False),
        ("mars", -1, True),
        ("single pallet", -1, True),
    ],
)
def test_sourcing_words(words: str, code: int, named: bool) -> None:
    (reading,) = read_sourced([words])
    assert (reading.value, bool(reading.doubt)) == (code, named)


def test_words_that_say_mixed_goods_or_a_cancelled_sale() -> None:
    assert [says_assorted(words) for words in ("Assorted toys", "MIXED LOT", "Various", "Mixer", "Asst. tops")] == [
        True,
        True,
        True,
        False,
        True,
    ]
    assert [says_cancelled(words) for words in ("Canceled", "CANCELLED", "storniert", "Completed", "")] == [
        True
    ] * 3 + [False] * 2


@pytest.mark.parametrize(
    ("cell", "doubt"),
    [("0", "no minutes at all"), ("-5", "not a number of minutes"), ("9999", "too many minutes"), ("1440", "")],
)
def test_minutes_that_nothing_is_learned_from_are_named(cell: str, doubt: str) -> None:
    assert read_minutes([cell], comma=False)[0].doubt == doubt


def test_weights_and_minutes() -> None:
    kilos = [reading.value for reading in read_weights(["2 kg", "10", "8 oz", 3, "x", ""], "Weight (lbs)", comma=False)]
    assert kilos[:4] == pytest.approx([2, 4.5359237, 0.22679619, 1.36077711])
    assert all(math.isnan(kilo) for kilo in kilos[4:])
    assert read_weights(["3"], "Weight", comma=False)[0].doubt == "a weight without a unit"
    both = [reading.value for reading in read_weights(["5 lb 3 oz", "5lbs, 3oz", "5# 3.0 oz"], "Weight", comma=False)]
    assert both == pytest.approx([5.1875 * 0.45359237] * 3)
    assert read_weights(["5.3"], "Weight (lb/oz)", comma=False)[0].doubt == "a weight without a unit"
    minutes = [reading.value for reading in read_minutes(["7,5", "1:15:00", "2 hrs", "999999", "soon"], comma=True)]
    assert minutes[:3] == [7.5, 75, 120]
    assert all(math.isnan(value) for value in minutes[3:])


@pytest.mark.parametrize(
    ("cell", "gtin"),
    [
        ("036000291452", "036000291452"),
        (36000291452, "036000291452"),
        (36000291452.0, "036000291452"),
        ("36000291452.0", "036000291452"),
        ("0 36000 29145 2", "036000291452"),
        ("0036000291452", "0036000291452"),
        ("6291041500213", "6291041500213"),
        ("10614141000415", "10614141000415"),
        ("96385074", "96385074"),
        ("04252614", "042100005264"),
        (4252614, "042100005264"),
        ("0-306-40615-2", "9780306406157"),
        ("080442957X", "9780804429573"),
        ("UPC: 036000291452", "036000291452"),
        ("EAN-13: 6291041500213", "6291041500213"),
        ("`036000291452", "036000291452"),
    ],
)
def test_gtins(cell, gtin: str) -> None:
    (reading,) = read_gtins([cell])
    assert (reading.value, reading.doubt) == (gtin, "")


@pytest.mark.parametrize(
    "cell",
    [
        "3.6E+10",
        "3,6E+10",
        "3.6e10",
        "036000291453",
        "36000000000",
        "36000300000",
        "SHELF-9",
        "12345",
        "000000000000",
        "123456789012345",
        "03600029145",
        "080442957Y",
        1.5,
        dt.date(2026, 1, 2),
    ],
)
def test_what_is_no_gtin_is_blank_and_named(cell) -> None:
    (reading,) = read_gtins([cell])
    assert reading.value == ""
    assert reading.doubt


def test_keys_eaten_by_scientific_notation_are_named() -> None:
    for lost in read_texts(["1.00E+05", "1E5", "1,2e+11"], keys=True):
        assert (lost.value, bool(lost.doubt)) == ("", True)
    assert [kept.value for kept in read_texts(["1E5-A", "E5", "12E4B"], keys=True)] == ["1E5-A", "E5", "12E4B"]
    assert read_texts(["Cups &amp;\u00a0saucers\n(6)"], keys=False)[0].value == "Cups & saucers (6)"


def test_what_a_spreadsheet_made_of_sizes_and_codes_is_named() -> None:
    for cell in ("5-Oct", "Oct-5", dt.date(2026, 10, 5)):
        (key,), (word,) = read_texts([cell], keys=True), read_texts([cell], keys=False)
        assert (key.value, key.done) == ("", "left blank")
        assert (word.value != "", word.done) == (True, "kept as written")
        assert all("took for a date" in reading.doubt for reading in (key, word))
    inside, *others = read_texts(["Socks 5-Oct grey", "Poster 5-Oct-2026", "A-5-Oct", "Oct-5 mug"], keys=False)
    assert (inside.value, inside.done) == ("Socks 5-Oct grey", "kept as written")
    assert [reading.doubt for reading in others] == ["", "", ""]


def test_a_round_number_among_lettered_keys_may_have_been_one_of_them() -> None:
    lost, *others = read_texts([100000, "1F5", "2C7", "3A1"], keys=True)
    assert (lost.value, [reading.doubt for reading in others]) == ("", ["", "", ""])
    assert "1E5" in lost.doubt
    assert [reading.value for reading in read_texts([100000, 100001, 100002], keys=True)] == [
        "100000",
        "100001",
        "100002",
    ]


def test_own_numbers_that_pass_the_check_digit_by_luck_are_not_believed() -> None:
    """One number in ten does: among twenty in a row, two."""
    own = [str(400000000000 + number) for number in range(20)]
    readings = read_gtins(own)
    assert [reading.value for reading in readings] == [""] * 20
    assert sum("most numbers of this length" in reading.doubt for reading in readings) == 2
    kept = read_gtins([*own, "6291041500213"])
    assert kept[-1].value == "6291041500213"


def test_eight_digits_that_could_be_either_are_lost() -> None:
    """12000009 has the right check digit as a GTIN-8, 12000010 as a UPC-E; a number that has both is neither."""
    both = [f"1{body:06}{check}" for body in range(2000) for check in range(10)]
    doubtful = [number for number in both if is_valid(number) and expanded_upc_e(number)]
    (reading,) = read_gtins(doubtful[:1])
    assert (reading.value, reading.doubt) == ("", "could be a UPC-E or a GTIN of eight digits")
