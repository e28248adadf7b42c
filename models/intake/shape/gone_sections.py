"""Which goods stand below words that say they are not in the lot?  A total that counts them or not decides, else words.

Common practice, no source: goods below "Removed from the load:" are not counted, and named.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from models.intake.columns.glances import quick_number
from models.intake.grid import Cell, Grid, row_text
from models.intake.shape.gone_words import Gone, gone_below
from models.intake.shape.total_words import total_of_all
from models.values.arrays import FloatArray
from models.values.problems import Caution

Row = Sequence[Cell]
BELOW = "below words that say it is not in the lot"
_CLOSE = 0.011  # major units that a sum of money may be off
_MOST_COMPARED = 10_000  # totals x headings
_LONGEST_TOLD = 60  # characters of a heading


@dataclass(frozen=True)
class Section:
    """Goods below such words, by positions in the grid's rows; `counted` by a total of the file, None if none tells."""

    heading: int
    rows: tuple[int, ...]
    gone: bool
    counted: bool | None


def gone_sections(
    grid: Grid,
    heads: Sequence[int],
    data: Sequence[int],
    ends: Collection[int],
    totals: Sequence[int],
    columns: Mapping[str, int],
) -> tuple[Section, ...]:
    """What stands below each of the headings, and whether it is in the lot.

    Parameters
    ----------
    grid : Grid
        One sheet.
    heads : sequence of int
        Positions of words alone that say so.
    data : sequence of int
        Positions of the rows of goods, rising.
    ends : collection of int
        Positions of other headings, which end such a section as heads and totals do.
    totals : sequence of int
        Positions of totals, rising.
    columns : mapping
        {canonical: position of the column}.

    Examples
    --------
    >>> rows = [["Mug", 2], ["Removed", ""], ["Jug", 1], ["Total", 2]]
    >>> gone_sections(Grid("", rows, 1), [1], [0, 2], [], [3], {"quantity": 1})
    (Section(heading=1, rows=(2,), gone=True, counted=False),)
    """
    marks = sorted({*heads, *ends, *totals, len(grid.rows)})
    below = {
        head: tuple(data[bisect_left(data, head) : bisect_left(data, marks[bisect_right(marks, head)])])
        for head in heads
    }
    below = {head: rows for head, rows in below.items() if rows}
    doubted = {index for rows in below.values() for index in rows}
    if len(doubted) == len(data):
        return tuple(Section(head, rows, False, None) for head, rows in below.items())
    sums = Sums(grid.rows, columns, data)
    proofs = totals if len(totals) * len(below) <= _MOST_COMPARED else ()
    if below and proofs:
        sums.leave_out(doubted)
    found = []
    for head, rows in below.items():
        counted = _counted(grid, rows, data, proofs, sums)
        said = gone_below(row_text(grid.rows[head])) is Gone.SURE
        found.append(Section(head, rows, said if counted is None else not counted, counted))
    return tuple(found)


def section_cautions(grid: Grid, sections: Sequence[Section]) -> tuple[Caution, ...]:
    """One caution a heading.

    Examples
    --------
    >>> grid = Grid("", [["Mug", 2], ["Removed:", ""], ["Jug", 1]], 1)
    >>> section_cautions(grid, [Section(1, (2,), True, None)])[0].what
    "1 row below 'Removed:' (row 2) was set aside: by these words it is not in the lot."
    """
    told = []
    for one in sections:
        few = len(one.rows) == 1
        rows, were, they = ("1 row", "was", "it is") if few else (f"{len(one.rows):,} rows", "were", "they are")
        words = f"'{row_text(grid.rows[one.heading])[:_LONGEST_TOLD]}' (row {one.heading + grid.first_row})"
        if one.gone:
            proof = f", and the file's own total leaves {'it' if few else 'them'} out" if one.counted is False else ""
            what = f"{rows} below {words} {were} set aside: by these words {they} not in the lot{proof}."
            told.append(Caution(what, "See that nothing below these words is in the lot."))
        else:
            proof = f", since the file's own total counts {'it' if few else 'them'}" if one.counted else ""
            what = f"{words} may mean that {rows} below {'is' if few else 'are'} not in the lot: kept{proof}."
            told.append(Caution(what, "Ask what is meant, and take out of the file what is not in the lot."))
    return tuple(told)


class Sums:
    """Adds up the units and the money of rows: of all, and of those that are surely in the lot."""

    def __init__(self, rows: Sequence[Row], columns: Mapping[str, int], data: Sequence[int]) -> None:
        self._rows, self._columns, self._data = rows, columns, data
        self._before: dict[bool, FloatArray] = {}

    def leave_out(self, doubted: Collection[int]) -> None:
        """Read every row once; some of them may not be in the lot."""
        units = np.array([self.number(index, "quantity") or 1.0 for index in self._data])
        each, line = (np.array([self.number(index, name) for index in self._data]) for name in ("tag_each", "tag_line"))
        counted = np.stack([np.ones(len(units)), units, line, each, units * each])
        sure = np.array([index not in doubted for index in self._data], dtype=bool)
        for whole in (True, False):
            numbers = counted if whole else np.where(sure, counted, 0.0)
            self._before[whole] = np.concatenate((np.zeros((len(counted), 1)), np.cumsum(numbers, axis=1)), axis=1)

    def number(self, index: int, column: str) -> float:
        """What a row says in a column, 0 for nothing."""
        row, place = self._rows[index], self._columns.get(column)
        return (quick_number(row[place]) or 0.0) if place is not None and place < len(row) else 0.0

    def tells(self, total: int, first: int, last: int) -> bool | None:
        """Whether a total has the doubted among some goods in it; None where it agrees with both sums or with none."""
        [everything, sure] = [self._before[whole][:, last] - self._before[whole][:, first] for whole in (True, False)]
        if not sure[0]:  # it may sum what is not there
            return None
        agree = [self._agrees(total, numbers.tolist()) for numbers in (everything, sure)]
        return agree[0] if agree[0] != agree[1] else None

    def _agrees(self, total: int, numbers: Sequence[float]) -> bool:
        """The total's units are these rows', else its money where it counts no units."""
        _, units, lines, *of_units = numbers
        if counted := self.number(total, "quantity"):
            return counted == units
        line, each = self.number(total, "tag_line"), self.number(total, "tag_each")
        sums = (lines, *of_units) if line else of_units
        return (line or each) > 0 and any(abs((line or each) - one) < _CLOSE for one in sums)


def _counted(grid: Grid, rows: Sequence[int], data: Sequence[int], totals: Sequence[int], sums: Sums) -> bool | None:
    """Whether a total of the file has these rows in it; None where none tells."""
    begun = 0
    for total in totals:
        everything = total_of_all(row_text(grid.rows[total]))
        above = len(data) if everything else bisect_left(data, total)
        if total > rows[0] or everything:
            for first in dict.fromkeys((begun, 0)):
                if (told := sums.tells(total, first, above)) is not None:
                    return told
        begun = bisect_left(data, total)
    return None
