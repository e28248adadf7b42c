"""What was wrong with a file's rows?  A bad row is data: it is named, never silently dropped."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class RowProblem:
    """One cell or row that was set aside, emptied, repaired by guess, or that contradicts another."""

    row: int  # 1-based row as a spreadsheet shows it
    column: str  # canonical column name, the file's own where it is none of those, "" for the whole row
    value: str  # the cell as it was read
    reason: str  # why, in a seller's words
    done: str  # what was done about it


@dataclass(frozen=True)
class StatedTotals:
    """What a file says of its own sum: a totals row, a heading or a title; never a line.  None: it does not say."""

    units: float | None
    tags: float | None  # tags of all units together [minor units]
    row: int  # 1-based row as a spreadsheet shows it, 0 where it stands in no row
    where: str  # the words that stand there, such as "Grand total" or "PALLET 3 OF 5 - 182 units"
    covers: tuple[int, int] | None = None  # first and last row that it sums, None for the whole file
    counted_units: float | None = None  # of the lines used from those rows, see `stated_totals.counted`
    counted_tags: float | None = None  # [minor units]
    part: bool = False  # its own words say that it sums no more than those rows: "Sub-total", "Pallet total"
    cases: float | None = None  # where the file counts cases, which hold several units or are sold whole
    counted_cases: float | None = None


def stated_totals(plain: Mapping[str, Any]) -> StatedTotals:
    """Stated totals from their plain form, as `dataclasses.asdict` or JSON writes them.

    Examples
    --------
    >>> stated_totals({"units": 3, "tags": None, "row": 9, "where": "Total", "covers": [2, 8]}).covers
    (2, 8)
    """
    covers = plain.get("covers")
    return StatedTotals(**{**plain, "covers": None if covers is None else (int(covers[0]), int(covers[1]))})


@dataclass(frozen=True)
class Problems:
    """rows = kept + set_aside; `items` also lists kept rows with a doubtful cell.

    `stated` are the file's own totals, beside which ours are shown.
    """

    rows: int
    kept: int
    set_aside: int
    items: tuple[RowProblem, ...]
    stated: tuple[StatedTotals, ...] = ()


@dataclass(frozen=True)
class Caution:
    """Something to check before bidding; `line` is the line's number, None for the whole lot."""

    what: str
    check: str
    line: int | None = None
