"""What is to be told about a file's rows?  Collected while columns are read; nothing is dropped without a name."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import Any

import numpy as np

from models.intake.cells.reading import ASIDE, Readings
from models.intake.grid import Cell, written_cell
from models.intake.shape.row_notes import RowNote
from models.values.arrays import BoolArray, IntArray
from models.values.errors import NeedsColumns
from models.values.lines import LINE_COLUMNS
from models.values.problems import Problems, RowProblem
from models.values.questions import Question, questions_in_words
from models.values.sales import SALES_COLUMNS

_LONGEST_VALUE = 200  # characters of a cell that a problem repeats
NO_HEADERS: Mapping[str, str] = {}
_KNOWN = frozenset({*LINE_COLUMNS, *SALES_COLUMNS})


class Findings:
    """Problems by data row; a row set aside is told for that alone, since its other cells are not used.

    A column of ours that is none of a file's canonical ones, such as the size of a pack, goes by the file's own header.
    """

    def __init__(self, rows: IntArray, headers: Mapping[str, str] = NO_HEADERS) -> None:
        self._rows = rows
        self._headers = headers
        self.aside: BoolArray = np.zeros(len(rows), dtype=bool)
        self._items: list[tuple[int, RowProblem]] = []
        self._questions: list[Question] = []

    def ask(self, *questions: Question) -> None:
        """Keep what a seller must say before the figures mean anything; all of a file's are asked together."""
        self._questions += questions

    def require_answers(self, headers: Sequence[str], found: Mapping[str, str]) -> None:
        """Raise NeedsColumns if anything was asked; `headers` are the file's own, `found` what they were taken for."""
        if self._questions:
            said = questions_in_words(self._questions)
            raise NeedsColumns(said, [one.key for one in self._questions], headers, self._questions, found)

    def name_mended(self, numbers: Collection[int]) -> None:
        """Tell of rows that were cut into cells by guess."""
        for index in np.flatnonzero(np.isin(self._rows, list(numbers))).tolist() if numbers else ():
            self.name(index, "", "", "a quotation mark was never closed", "read as an ordinary sign")

    def name_notes(self, notes: Iterable[RowNote]) -> None:
        """Tell of what the reader of the file found amiss."""
        for note in notes:
            self.name(note.index, note.column, note.value, note.reason, note.done)

    def name(self, index: int, column: str, cell: Cell, reason: str, done: str) -> None:
        """Tell of one cell, or of a whole row with column ""; `done` ASIDE sets the row aside."""
        value = written_cell(cell)[:_LONGEST_VALUE]
        column = column if column in _KNOWN else self._headers.get(column, column)
        self._items.append((index, RowProblem(int(self._rows[index]), column, value, reason, done)))
        if done == ASIDE:
            self.aside[index] = True

    def name_doubts(self, column: str, cells: Sequence[Cell], readings: Readings[Any]) -> None:
        """Tell of every doubtful cell of a column."""
        for index in readings.doubtful():
            reading = readings[index]
            self.name(index, column, cells[index], reading.doubt, reading.done)

    def name_where(self, mask: BoolArray, column: str, cells: Sequence[Cell], reason: str, done: str) -> None:
        """Tell the same of every row of a mask; `cells` may be empty where no cell is meant."""
        for index in np.flatnonzero(mask).tolist():
            self.name(index, column, cells[index] if cells else "", reason, done)

    def problems(self) -> Problems:
        """In the file's order; rows = kept + set_aside."""
        told = [item for index, item in self._items if not self.aside[index] or item.done == ASIDE]
        set_aside = int(self.aside.sum())
        return Problems(len(self._rows), len(self._rows) - set_aside, set_aside, tuple(sorted(told, key=_place)))


def _place(item: RowProblem) -> int:
    return item.row
