"""Nothing is sold or listed in the future: a few such days are slips and blanked, many speak against the calendar.

A listing may well end in the future: then it still runs.
"""

import datetime as dt
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

import numpy as np

from models.intake.cells.reading import BLANK
from models.intake.history import ReadHistory, alone
from models.intake.sales.history_cautions import live_cautions
from models.values.arrays import DayArray, day
from models.values.days import day_in_words
from models.values.problems import Caution, RowProblem
from models.values.sale_parts import ENDINGS, LIVE, NEVER, SalePart

# Common practice, no source: so many slips a file may hold, or this share of its days.
FEW: Final = 5
FEW_SHARE: Final = 0.02
_NAMES: Final = {
    "listed_on": "listed in the future",
    "first_listed_on": "first listed in the future",
    "sold_on": "sold in the future",
}


def without_future_days(read: ReadHistory, today: dt.date) -> ReadHistory:
    """A history as read on a day of the shop's calendar; no row is dropped.

    Parameters
    ----------
    read : ReadHistory
        From `read_history`.
    today : date
        A day later is still believed: a marketplace may count by another time zone.

    Returns
    -------
    ReadHistory
        Later days are blank and named among its problems; where they are too many for slips they stay, with a caution.

    Examples
    --------
    >>> from models.intake.history import read_history
    >>> data = b"Item,Sold for,Date sold\\nMug,8.00,2026-05-01\\nPot,9.00,2062-05-02\\n"
    >>> read = without_future_days(read_history(data, "s.csv", {}, "USD"), dt.date(2026, 7, 1))
    >>> read.sales.sold_on.astype(str).tolist(), read.problems.items[0].reason
    (['2026-05-01', 'NaT'], 'sold in the future')
    """
    read = _still_running(read, today)
    latest = day(today + dt.timedelta(days=1))
    days: dict[str, DayArray] = {name: getattr(read.part.sales, name) for name in _NAMES}
    late = {name: column > latest for name, column in days.items()}
    count = sum(int(mask.sum()) for mask in late.values())
    if not count:
        return read
    dated = sum(int((~np.isnat(column)).sum()) for column in days.values())
    if count > max(FEW, FEW_SHARE * dated):
        many = _many(count, dated, today)
        return replace(read, cautions=(*read.cautions, many), file_cautions=(*read.file_cautions, many))
    blank = {name: np.where(late[name], np.datetime64("NaT", "D"), column) for name, column in days.items()}
    items = sorted((*read.problems.items, *_named(read, days, today)), key=lambda one: one.row)
    problems = replace(read.problems, items=tuple(items))
    part = replace(read.part, sales=replace(read.part.sales, **blank))
    return _with_part(replace(read, problems=problems), part, read.file_cautions)


def _still_running(read: ReadHistory, today: dt.date) -> ReadHistory:
    """What has a day of ending that is still to come was for sale when the file was made."""
    part = read.part
    runs = np.isin(part.role, ENDINGS) & (part.sales.ended_on > day(today))
    ahead = part.made_on > day(today + dt.timedelta(days=1))  # a day on which something ends, and no day of making
    if not runs.any() and not ahead:
        return read
    ended_on = np.where(runs, NEVER, part.sales.ended_on)
    role = np.where(runs, LIVE, part.role).astype(np.int8)
    running = replace(
        part, sales=replace(part.sales, ended_on=ended_on), role=role, made_on=NEVER if ahead else part.made_on
    )
    before = live_cautions(part)
    kept = [caution for caution in read.file_cautions if caution not in before]
    return _with_part(read, running, (*kept, *live_cautions(running)))


def _with_part(read: ReadHistory, part: SalePart, own: tuple[Caution, ...]) -> ReadHistory:
    done = alone(part, read.problems, own, read.mapping, read.headers)
    return replace(done, confidence=read.confidence, buyers=read.buyers, unfound=read.unfound)


def _named(read: ReadHistory, days: dict[str, DayArray], today: dt.date) -> Iterator[RowProblem]:
    latest = day(today + dt.timedelta(days=1))
    for name, reason in _NAMES.items():
        for at in np.flatnonzero(days[name] > latest).tolist():
            yield RowProblem(int(read.part.sales.row[at]), name, str(days[name][at]), reason, BLANK)


def _many(count: int, dated: int, today: dt.date) -> Caution:
    return Caution(
        f"{count:,} of {dated:,} days in this history lie after today, {day_in_words(today)}: too many for slips.",
        "Check the date of this computer, and whether the day or the month comes first in the file.",
    )
