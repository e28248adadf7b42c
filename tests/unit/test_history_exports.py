"""Exports that seem to stop, and what live listings and missing days leave unknown."""

import datetime as dt
from collections.abc import Iterable

import pytest

from models.intake.histories import histories_together
from models.intake.history import ReadHistory, read_history

FIRST = dt.date(2026, 1, 7)


def day(after: int) -> str:
    return str(FIRST + dt.timedelta(after))


def read(rows: Iterable[tuple[object, ...]], header: str = "Title,Sold price,Date listed,Date sold") -> ReadHistory:
    lines = [",".join(map(str, row)) for row in rows]
    return read_history("\n".join((header, *lines)).encode(), "s.csv", {}, "USD")


def said(done: ReadHistory, words: str) -> list[str]:
    return [one.what for one in done.cautions if words in one.what]


@pytest.mark.parametrize(("rows", "told"), [(1000, "1,000 rows:"), (999, "1,000 rows with its header:"), (998, "")])
def test_a_round_number_of_rows_is_told(rows: int, told: str) -> None:
    done = read((f"Mug {number}", 8, "", day(number % 150)) for number in range(rows))
    assert [told in one for one in said(done, "exactly")] == ([True] if told else [])


def test_a_span_that_exports_stop_at_is_told_without_listing_days_too() -> None:
    done = read((f"Mug {number}", 8, "", day(number % 90)) for number in range(180))
    assert "exactly 90 days" in said(done, "exactly")[0]


def steady(begin: int, end: int, listed: int) -> list[tuple[object, ...]]:
    """A sale a day, of goods listed so many days before."""
    return [(f"Mug {number}", 8, day(number - 1 - number * 37 % listed), day(number)) for number in range(begin, end)]


def test_sales_that_begin_long_after_goods_were_listed_are_told() -> None:
    assert "No sale before 2026-01-07" in said(read(steady(0, 300, 150)), "No sale")[0]
    assert said(read(steady(0, 300, 20)), "No sale") == []


def test_sales_that_end_long_before_goods_were_listed_are_told() -> None:
    unsold = [(f"Jug {number}", "", day(number), "") for number in range(100, 180)]
    assert said(read([*steady(0, 100, 5), *unsold]), "No sale") == [
        f"No sale after {day(99)}, though goods were listed until {day(179)}: the file of sales may stop there."
    ]


LIVE = "Listing number,Title,Asking price,Start date,Status"


def test_live_listings_say_that_their_day_is_not_known() -> None:
    done = read([("L1", "Mug", 9, day(0), "Active"), ("L2", "Jug", 9, day(3), "Active")], LIVE)
    assert "still for sale when the file was made: 2." in said(done, "still for sale")[0]
    ended = read([("L1", "Mug", 9, day(0), "Ended"), ("L2", "Jug", 9, day(3), "Ended")], LIVE)
    assert said(ended, "still for sale") == []


def test_few_sales_with_a_listing_day_and_listings_without_one_are_told() -> None:
    sales = [(f"Mug {n}", 8, day(n) if n < 10 else "", day(n + 5)) for n in range(40)]
    waiting = [(f"Jug {n}", "", "", "") for n in range(12)]
    done = read([*sales, *waiting])
    assert said(done, "Only 10 of 40 sales") != []
    assert said(done, "without a listing date: 12 of 12") != []


def test_several_files_say_it_once() -> None:
    one, two = read(steady(0, 100, 5)), read(steady(100, 200, 5))
    assert said(histories_together([("a.csv", one), ("b.csv", two)]), "No sale") == []
