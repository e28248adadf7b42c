"""What day does a cell say?  ISO 8601, month names, serials; day or month first is decided for a whole column.

A time and its zone are dropped: the day stands as written.

References
----------
ISO 8601-1:2019: calendar, week and ordinal dates.
"""

import datetime as dt
import re
from collections.abc import Sequence
from enum import Enum
from functools import partial

from models.intake.cells.named_days import TIME, named_day, year_of
from models.intake.cells.reading import BLANK, Reading, Readings, read_column
from models.intake.grid import Cell, folded, is_blank

_EARLIEST, _LATEST = dt.date(1990, 1, 1), dt.date(2100, 1, 1)
_LONGEST_TEXT = 80  # characters; longer is prose
_SERIAL_ZERO = dt.date(1899, 12, 30)  # day 0 of the 1900 date system, its phantom 29 February 1900 included
_WEEK = re.compile(r"(\d{4})-?W(\d{2})-?([1-7])")
_ORDINAL = re.compile(r"(\d{4})-(\d{3})")
_YEAR_FIRST = re.compile(r"(\d{4})[-/. ](\d{1,2})[-/. ](\d{1,2})" + TIME)
_COMPACT = re.compile(r"(\d{4})(\d{2})(\d{2})(?:T.*)?")
_PARTS = re.compile(r"(\d{1,2})([-/. ])(\d{1,2})[-/. ](\d{4}|\d{2})" + TIME)
_SERIAL = re.compile(r"(\d{5})(?:[.,]\d+)?")


class Order(Enum):
    """Which comes first in 03/04/2026."""

    DAY = "day"
    MONTH = "month"
    YEAR = "year"  # 26/04/03, two digits each


def read_dates(cells: Sequence[Cell], order: Order, turned: bool = False) -> Readings[dt.date | None]:
    """The day of each cell, None for blank.

    Parameters
    ----------
    cells : sequence of Cell
        The column.
    order : Order
        Of cells such as 03/04/2026.
    turned : bool
        A spreadsheet took day for month in the cells that it typed as dates.

    Examples
    --------
    >>> cells = ["2026-07-01T10:00Z", "03/04/2026", "Jul-04-26 10:03:21 PDT", 46204, "soon"]
    >>> [str(reading.value) for reading in read_dates(cells, Order.MONTH)]
    ['2026-07-01', '2026-03-04', '2026-07-04', '2026-07-01', 'None']
    """
    return read_column(cells, partial(_read, order=order, turned=turned))


def ambiguous_parts(cell: Cell) -> tuple[int, int, str, str] | None:
    """First and second number, the sign between them and the last number of 03/04/2026; None for other cells.

    Examples
    --------
    >>> ambiguous_parts("03/04/2026 10:15"), ambiguous_parts("2026-04-03")
    ((3, 4, '/', '2026'), None)
    """
    found = _PARTS.fullmatch(folded(cell)) if isinstance(cell, str) and len(cell) <= _LONGEST_TEXT else None
    return (int(found[1]), int(found[3]), found[2], found[4]) if found else None


def _read(cell: Cell, order: Order, turned: bool) -> Reading[dt.date | None]:
    if isinstance(cell, dt.date):
        return _turned_back(cell) if turned else _within(cell)
    if isinstance(cell, int | float):
        return _serial(float(cell))
    text = folded(cell)
    if is_blank(text):
        return Reading(None)
    if len(text) > _LONGEST_TEXT:
        return _unreadable()
    try:
        return _text(text, order)
    except (ValueError, KeyError, OverflowError):
        return _unreadable()


def _text(text: str, order: Order) -> Reading[dt.date | None]:
    if found := _YEAR_FIRST.fullmatch(text) or _COMPACT.fullmatch(text):
        return _within(dt.date(int(found[1]), int(found[2]), int(found[3])))
    if found := _PARTS.fullmatch(text):
        if order is Order.YEAR:
            return _within(dt.date(year_of(found[1]), int(found[3]), int(found[4])))
        return _ordered(int(found[1]), int(found[3]), year_of(found[4]), order)
    if found := _SERIAL.fullmatch(text):
        return _serial(float(found[1]))
    if found := _WEEK.fullmatch(text):
        return _within(dt.date.fromisocalendar(int(found[1]), int(found[2]), int(found[3])))
    if found := _ORDINAL.fullmatch(text):
        return _within(_day_ofyear_of(int(found[1]), int(found[2])))
    return _within(named_day(text))


def _day_ofyear_of(year: int, day: int) -> dt.date:
    found = dt.date(year, 1, 1) + dt.timedelta(days=day - 1)
    if found.year != year:
        raise ValueError
    return found


def _ordered(first: int, second: int, year: int, order: Order) -> Reading[dt.date | None]:
    day, month = (first, second) if order is Order.DAY else (second, first)
    if month <= 12:
        return _within(dt.date(year, month, day))
    read = _within(dt.date(year, day, month))
    other = "month" if order is Order.DAY else "day"
    return (
        Reading(read.value, f"can only be {other} first, unlike the rest of the column", "read so")
        if read.value
        else read
    )


def _turned_back(day: dt.date) -> Reading[dt.date | None]:
    if day.day == day.month:
        return _within(day)
    read = _within(dt.date(day.year, day.day, day.month))
    return Reading(read.value, "a spreadsheet took its day for the month", "turned back") if read.value else read


def _serial(days: float) -> Reading[dt.date | None]:
    whole = int(days)
    if 19_000_101 <= whole <= 21_001_231:
        try:
            return _within(dt.date(whole // 10_000, whole // 100 % 100, whole % 100))
        except ValueError:
            return _unreadable()
    return _within(_SERIAL_ZERO + dt.timedelta(days=whole)) if 0 < whole < 100_000 else _unreadable()


def _within(day: dt.date) -> Reading[dt.date | None]:
    return Reading(day) if _EARLIEST <= day < _LATEST else Reading(None, "the date is out of all likelihood", BLANK)


def _unreadable() -> Reading[dt.date | None]:
    return Reading(None, "not a date", BLANK)
