"""What day does a cell say?  ISO, month names, serials; day or month first is decided for a whole column."""

import datetime as dt
import re
from collections.abc import Sequence
from enum import Enum
from functools import partial

from models.intake.grid import Cell, folded, is_blank
from models.intake.reading import BLANK, Reading, read_column

_EARLIEST, _LATEST = dt.date(1990, 1, 1), dt.date(2100, 1, 1)
_LONGEST_TEXT = 80  # characters; longer is prose
_SERIAL_ZERO = dt.date(1899, 12, 30)  # day 0 of the 1900 date system, its phantom 29 February 1900 included
_TIME = r"(?:[T ,]+\(?\d{1,2}[:.h]\d{2}.*)?"
_YEAR_FIRST = re.compile(r"(\d{4})[-/. ](\d{1,2})[-/. ](\d{1,2})" + _TIME)
_COMPACT = re.compile(r"(\d{4})(\d{2})(\d{2})(?:T.*)?")
_PARTS = re.compile(r"(\d{1,2})([-/. ])(\d{1,2})[-/. ](\d{4}|\d{2})" + _TIME)
_SERIAL = re.compile(r"(\d{5})(?:[.,]\d+)?")
_DAY_NAME = re.compile(r"^[^\W\d_]{2,10}\.?,?\s+(?=\d|[^\W\d_]{3})")
_DAY_MONTH = re.compile(
    r"(\d{1,2})(?:st|nd|rd|th|\.|er)?[-/. ]+(?:de )?([^\W\d_]+)\.?[-/., ]+(?:de )?(\d{4}|\d{2})" + _TIME
)
_MONTH_DAY = re.compile(r"([^\W\d_]+)\.?[-/. ]+(\d{1,2})(?:st|nd|rd|th)?[-/., ]+(\d{4}|\d{2})" + _TIME)
_MONTHS = {
    name: month
    for month, names in enumerate(
        (
            "jan january januar janvier enero ene gennaio gen januari jänner",
            "feb february februar février fevrier févr febrero febbraio februari",
            "mar march märz maerz mrz mär mars marzo maart mrt",
            "apr april avril avr abril abr aprile",
            "may mai mayo maggio mag mei",
            "jun june juni juin junio giugno giu",
            "jul july juli juillet juil julio luglio lug",
            "aug august août aout agosto ago augustus",
            "sep sept september septembre septiembre settembre set",
            "oct october oktober okt octobre octubre ottobre ott",
            "nov november novembre noviembre",
            "dec december dezember dez décembre decembre déc diciembre dic dicembre",
        ),
        start=1,
    )
    for name in names.split()
}


class Order(Enum):
    """Which comes first in 03/04/2026."""

    DAY = "day"
    MONTH = "month"


def read_dates(cells: Sequence[Cell], order: Order) -> list[Reading[dt.date | None]]:
    """The day of each cell, None for blank; a time and its zone are dropped, the day stands as written.

    Parameters
    ----------
    cells : sequence of Cell
        The column.
    order : Order
        From `order_of`.

    Examples
    --------
    >>> cells = ["2026-07-01T10:00Z", "03/04/2026", "Jul-04-26 10:03:21 PDT", 46204, "soon"]
    >>> [str(reading.value) for reading in read_dates(cells, Order.MONTH)]
    ['2026-07-01', '2026-03-04', '2026-07-04', '2026-07-01', 'None']
    """
    return read_column(cells, partial(_read, order=order))


def order_votes(cells: Sequence[Cell]) -> tuple[int, int, int]:
    """Dates of a column that can only be day first, only month first, and those that could be both.

    Examples
    --------
    >>> order_votes(["31/01/2026", "02/28/2026", "03/04/2026", "05/05/2026", "2026-01-01"])
    (1, 1, 1)
    """
    day_first = month_first = either = 0
    for cell in set(cells):
        found = _PARTS.fullmatch(folded(cell)) if isinstance(cell, str) and len(cell) <= _LONGEST_TEXT else None
        if found:
            first, second = int(found[1]), int(found[3])
            day_first += (first > 12 >= second) or found[2] == "."
            month_first += second > 12 >= first
            either += first <= 12 and second <= 12 and first != second and found[2] != "."
    return day_first, month_first, either


def order_of(own: tuple[int, int, int], whole_file: tuple[int, int], currency: str) -> tuple[Order, bool]:
    """The order of one column and whether it is only assumed.

    Parameters
    ----------
    own : tuple
        `order_votes` of the column.
    whole_file : tuple
        Day-first and month-first votes of all date columns.
    currency : str
        Nothing else being known, US dollars are dated month first and all else day first (common practice, no source).

    Examples
    --------
    >>> order_of((0, 0, 5), (0, 0), "USD"), order_of((0, 0, 5), (4, 0), "USD")
    ((<Order.MONTH: 'month'>, True), (<Order.DAY: 'day'>, False))
    """
    for day_first, month_first in (own[:2], whole_file):
        if day_first != month_first:
            return (Order.DAY if day_first > month_first else Order.MONTH), False
    return (Order.MONTH if currency == "USD" else Order.DAY), own[2] > 0


def _read(cell: Cell, order: Order) -> Reading[dt.date | None]:
    if isinstance(cell, dt.date):
        return _within(cell)
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
        return _ordered(int(found[1]), int(found[3]), _year(found[4]), order)
    if found := _SERIAL.fullmatch(text):
        return _serial(float(found[1]))
    return _within(_named_month(text))


def _named_month(text: str) -> dt.date:
    for words in (text, _DAY_NAME.sub("", text, count=1)):
        if found := _DAY_MONTH.fullmatch(words):
            return dt.date(_year(found[3]), _MONTHS[found[2].lower()], int(found[1]))
        if (found := _MONTH_DAY.fullmatch(words)) and found[1].lower() in _MONTHS:
            return dt.date(_year(found[3]), _MONTHS[found[1].lower()], int(found[2]))
    raise ValueError


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


def _year(digits: str) -> int:
    year = int(digits)
    return year if len(digits) == 4 else year + (2000 if year < 80 else 1900)


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
