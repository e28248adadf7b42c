"""What do headings inside a table say?  Which pallet or lot the rows below them belong to; it is filled down.

A heading is no line.  Its unit count is kept as the file's own total of those rows.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from models.intake.cells.said import without_counts
from models.intake.grid import Cell, Grid, plain_text, row_text
from models.intake.shape.row_words import names_part
from models.intake.shape.rows import SortedRows

_LOT = re.compile(r"(?:lot|load|truck)\b", re.IGNORECASE)


@dataclass(frozen=True)
class Part:
    """The rows under one heading; positions in the grid's rows, `last` included."""

    name: str
    heading: str
    index: int
    first: int
    last: int

    @property
    def is_lot(self) -> bool:
        """True where the heading speaks of a lot of its own, not of a pallet or box in it."""
        return bool(_LOT.match(self.name))


def parts_of(grid: Grid, titles: Sequence[int], sorted_rows: SortedRows) -> tuple[Part, ...]:
    """The parts that headings open: a lot until the next lot, a pallet or box until the next heading.

    Parameters
    ----------
    grid : Grid
        One sheet.
    titles : sequence of int
        Positions of the rows above the header; the last pallet and lot named there have the first rows.
    sorted_rows : SortedRows
        The rows below it.

    Examples
    --------
    >>> rows = [["Item"], ["PALLET 1 OF 2 - 3 units"], ["Mug"], ["Jug"], ["PALLET 2 OF 2"], ["Pot"]]
    >>> parts_of(Grid("", rows, 1), [], SortedRows((2, 3, 5), (), (1, 4), ()))[0]
    Part(name='PALLET 1 OF 2', heading='PALLET 1 OF 2 - 3 units', index=1, first=2, last=3)
    """
    above = [index for index in titles if names_part(row_text(grid.rows[index]))]
    found: list[Part] = []
    end = last_lot_end = len(grid.rows) - 1
    for index in reversed([*above, *sorted_rows.parts]):
        heading = row_text(grid.rows[index])
        part = Part(_name(grid.rows[index]), heading, index, index + 1, end)
        if part.is_lot:
            part = Part(part.name, heading, index, index + 1, last_lot_end)
            last_lot_end = index - 1
        found.append(part)
        end = index - 1
    return tuple(reversed(found))


def _name(row: Sequence[Cell]) -> str:
    """The heading's words without its counts, and without the numbers that stand in columns of their own."""
    words = [cell for cell in row if isinstance(cell, str) and any(map(str.isalpha, cell))]
    return without_counts(row_text(words if words and names_part(plain_text(words[0])) else row))


def filled_down(parts: Sequence[Part], kept: Sequence[int]) -> list[Cell]:
    """Name of the innermost part of each kept row, "" where it has none.

    Examples
    --------
    >>> filled_down([Part("Pallet 1", "Pallet 1", 1, 2, 3)], [0, 2, 3, 4])
    ['', 'Pallet 1', 'Pallet 1', '']
    """
    names: list[Cell] = []
    place = 0
    for index in kept:
        while place < len(parts) and parts[place].last < index:
            place += 1
        names.append(parts[place].name if place < len(parts) and parts[place].first <= index else "")
    return names
