"""What is left of a table when its lines are taken away?  Titles, totals, headings and notes, with their places."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from models.intake.grid import Cell, Grid, row_text
from models.intake.shape.parts import Part, parts_of
from models.intake.shape.rows import SortedRows

_MOST_NOTES = 2_000  # rows of words that are looked into


@dataclass(frozen=True)
class Outline:
    """Positions count the grid's rows from 0; `rows` holds those that are no lines."""

    rows: Mapping[int, Sequence[Cell]]
    first_row: int  # 1-based row of position 0
    titles: tuple[int, ...]
    sorted_rows: SortedRows
    parts: tuple[Part, ...]
    places: Mapping[str, int]  # {canonical: position of the column}

    def texts(self, *groups: Sequence[int]) -> list[str]:
        """The words of each row, group after group."""
        return [row_text(self.rows[index]) for group in groups for index in group if index in self.rows]


def outline_of(grid: Grid, titles: Sequence[int], sorted_rows: SortedRows, places: Mapping[str, int]) -> Outline:
    """The table without its lines.

    Examples
    --------
    >>> grid = Grid("", [["Load 7"], ["Item"], ["Mug"]], 1)
    >>> outline_of(grid, range(1), SortedRows((2,), (), (), ()), {"description": 0}).texts([0])
    ['Load 7']
    """
    notes = sorted_rows.notes[:_MOST_NOTES]
    told = replace(sorted_rows, notes=notes)
    parts = parts_of(grid, titles, told)
    kept = {*titles, *told.totals, *told.parts, *notes}
    return Outline({index: grid.rows[index] for index in kept}, grid.first_row, tuple(titles), told, parts, places)
