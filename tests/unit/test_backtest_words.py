"""A seller reads how near the estimates were: plain, one rounding, loud where a simpler way is nearer."""

import re

import pytest
from backtest_document import TOO_FEW, backtest_document, beaten_document

from models.services.backtest_words import backtest_headline, backtest_line, backtest_parts, beaten_by, beaten_words


def said(found: dict) -> str:  # type: ignore[type-arg]
    parts = backtest_parts(found, lambda amount: f"${float(amount):,.0f}")
    return " | ".join(f"{name}: {text}" for name, text in parts)


def test_the_headline_says_how_much_it_was_off_and_how_often_ranges_held() -> None:
    assert backtest_headline(backtest_document()) == (
        "On 1,761 of your sales of goods bought in bulk since 22 Jan 2025 it came within 1% of the money;"
        " 8 in 10 lots should have come in within their stated range, 8.8 in 10 did (14 of 16)."
    )


@pytest.mark.parametrize(
    ("ratio", "within"),
    [
        (1.0, "1%"),
        (0.999, "1%"),
        (1.06, "6%"),
        (1.0601, "6%"),
        (1.065, "7%"),
        (0.9797, "2%"),
        (0.8, "20%"),
        (2.5, "150%"),
    ],
)
def test_within_rounds_as_the_money_does(ratio: float, within: str) -> None:
    found = backtest_document(money={"told": "1", "happened": "1", "ratio": ratio})
    assert f"came within {within} of the money" in backtest_headline(found)
    assert f"came within {within} of the money" in backtest_line(found)
    assert abs(ratio - 1) < 0.005 or f"came in: {within} too" in said(found)


def test_every_part_is_told_in_order() -> None:
    text = said(backtest_document())
    order = [
        "How: It went back to 2 days between 22 Jan 2025 and 21 Feb 2025", "learned only from what you knew on each",
        "16 lots of goods bought in bulk, 1,761 sales", "is on neither side; 1 lot with few sales",
        "Money: It expected $36,737 in all and $37,256 came in: 1% too low.",
        "Single lots: One lot alone was off by 15% on average",
        "Ranges: Of 10 lots, the 5-in-10 range held 4.4, the 8-in-10 range held 8.8, the 9-in-10 range held 9.4",
        "and the 9.5-in-10 range held 10. 16 lots tell so much: in the long run the 8-in-10 range may hold 6.4 to 9.7.",
        "Other ways: A fixed share of the tag came within 11% of the money and was off by 18% on the average lot",
        "None was nearer on the average lot.",
        "How soon: Within 30 days of listing 43% of 4,381 units had sold (expected 41%)",
        "(expected 71%). That is near.",
        "Half had sold after 41 days (expected 42).",
        "what sold 30 days later brought 1.2% less (0.6% to 1.8%); forecasts do not count that.",
        "In the first 90 days they brought $78,761 (expected $77,046)",
        "Your hours: The 1,399 listings you timed took 266 hours; it expected 267, 1% too many.",
        "Mind: Lots of one time rise and fall together", "16 lots are few", "no promise",
    ]  # fmt: skip
    places = [text.find(one) for one in order]
    assert -1 not in places, order[places.index(-1)]
    assert places == sorted(places)


def test_words_are_a_sellers_words() -> None:
    text = said(backtest_document(other_goods=backtest_document() | {"goods": "not_bulk"})) + backtest_line(
        backtest_document()
    )
    for strange in ("posterior", "coverage", "bias", "baseline", "quantile", "RMSE", "cut-off", "censor"):
        assert strange not in text
    assert "single finds and goods of unknown origin" in text
    assert not re.search(r"\d{4}-\d\d-\d\d|None\b(?! was)|nan|\.\.|  ", text)


def test_a_simpler_way_that_was_nearer_is_named() -> None:
    found = beaten_document()
    assert beaten_by(found) == ("a fixed share of the tag",)
    assert beaten_words(found) == (
        "A fixed share of the tag was nearer on your goods. With so few lots that may be luck."
        " Hold each ceiling against that before you bid."
    )
    assert backtest_line(found).endswith("A fixed share of the tag was nearer.")
    assert "None was nearer" not in said(found)
    both = beaten_document(surely=True, both=True)
    assert beaten_words(both).startswith(
        "A fixed share of the tag and the median of the same brand and category were nearer on your goods. Hold"
    )


@pytest.mark.parametrize(
    ("share", "low", "high", "words"),
    [
        (0.5, 0.4, 0.6, "too narrow, so ask for more confidence"),
        (0.97, 0.9, 0.99, "wider than they need be"),
        (0.7, 0.5, 0.85, "in the long run the 8-in-10 range may hold 5 to 8.5."),
    ],
)
def test_ranges_that_cannot_be_luck_are_named(share: float, low: float, high: float, words: str) -> None:
    coverage = [
        {"stated": stated, "happened": share, "lots": 100, "low": low, "high": high} for stated in (0.5, 0.8, 0.9, 0.95)
    ]
    assert words in said(backtest_document(coverage=coverage))


def test_fortnights_that_stand_in_for_lots_are_told_from_lots() -> None:
    tested = {"lots": 100, "named": 3, "sales": 4000, "units": 4100}
    wide = [
        {"stated": stated, "happened": 0.97, "lots": 100, "low": 0.9, "high": 0.99} for stated in (0.5, 0.8, 0.9, 0.95)
    ]
    text = said(backtest_document(tested=tested, coverage=wide))
    assert "Where no lot is named, goods of one kind that were listed in one fortnight stand in for a lot." in text
    assert "a fortnight mixes several purchases, one lot swings wider" in text
    assert "wider than they need be" not in text
    assert "stand in" not in said(backtest_document())


def test_what_could_not_be_tested_is_said() -> None:
    text = said(backtest_document(time=None, minutes=None, sales={"dated": 900, "undated": 1200}))
    assert "cannot be tested how soon things sell" in text
    assert "holds no listing minutes" in text
    assert "1,200 rows without the days they need could not be used" in text


def test_why_time_is_not_judged_is_one_plain_sentence() -> None:
    why = "Your history holds sold listings only: what did not sell is missing."
    assert f"How soon: {why}" in said(backtest_document(time=None, time_why=why))


@pytest.mark.parametrize(
    ("told", "happened", "words"),
    [
        (0.48, 0.04, "far too hopeful: on your goods count on much longer waits than it tells, and bid lower."),
        (0.04, 0.48, "far too cautious: on your goods count on much shorter waits than it tells."),
        (0.50, 0.40, "It expected 10 in 100 too many."),
        (0.40, 0.50, "It expected 10 in 100 too few."),
        (0.42, 0.40, "That is near."),
    ],
)
def test_time_told_far_from_what_happened_is_judged_plainly(told: float, happened: float, words: str) -> None:
    time = backtest_document()["time"]
    within = [{"days": 30, "units": 900, "told": told, "happened": happened}, time["within"][1]]
    assert words in said(backtest_document(time=time | {"within": within}))


def test_late_sales_are_not_called_cheaper_where_nobody_could_tell() -> None:
    time = backtest_document()["time"]
    unsure = time | {"later_sales": time["later_sales"] | {"low": -0.02, "high": 0.001}}
    assert "Pieces that sold late brought about the same as pieces that sold soon." in said(
        backtest_document(time=unsure)
    )
    assert "sold late" not in said(backtest_document(time=time | {"later_sales": None}))


def test_many_lots_are_not_called_few() -> None:
    found = beaten_document()
    many = found | {"tested": found["tested"] | {"lots": 96}}
    assert " nearer on your goods. That may be luck. Hold" in beaten_words(many)


def test_other_goods_whose_ranges_are_off_are_named() -> None:
    coverage = [
        {"stated": stated, "happened": 0.556, "lots": 367, "low": 0.5, "high": 0.6} for stated in (0.5, 0.8, 0.9, 0.95)
    ]
    other = backtest_document(goods="not_bulk", coverage=coverage)
    assert "did (204 of 367). That is too few: for these goods the ranges are too narrow." in said(
        backtest_document(other_goods=other)
    )


def test_a_history_without_days_of_listing_is_laid_out_by_sales() -> None:
    tested = {"lots": 100, "named": 3, "sales": 4000, "units": 4100}
    text = said(backtest_document(tested=tested, sales={"dated": 900, "undated": 1, "listed": 0}))
    assert "what the goods you sold next would bring" in text
    assert "goods of one kind that were sold in one fortnight" in text
    assert "1 row without the days" in text


def test_one_hour_is_one_hour() -> None:
    minutes = {"listings": 1, "hours": {"told": 1.2, "happened": 0.9}, "ratio": 1.33, "lot_error": {}}
    assert "The 1 listing you timed took 1 hour; it expected 1" in said(backtest_document(minutes=minutes))


def test_too_little_is_one_plain_sentence() -> None:
    assert backtest_headline(TOO_FEW) == (
        "It could not be tested on your own sales yet. 31 sales say when they sold; with fewer than 60 nothing can be"
        " told."
    )
    assert backtest_parts(TOO_FEW, str) == ()
    assert backtest_line(TOO_FEW) == beaten_words(TOO_FEW) == ""
