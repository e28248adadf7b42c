"""The data rows of one file, column by column: what every reader of columns takes."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from models.intake.grid import Cell
from models.intake.shape.outline import Outline
from models.intake.shape.row_notes import RowNote
from models.values.arrays import IntArray
from models.values.problems import Caution
from models.values.questions import NO_COLUMN


@dataclass(frozen=True)
class Table:
    """The data rows of one sheet, column by column."""

    rows: IntArray  # 1-based, as a spreadsheet shows them
    columns: Mapping[str, list[Cell]]  # {canonical: one cell a data row}
    headers: Mapping[str, str]  # {canonical: header in file}
    names: tuple[str, ...]  # every header that says something, in the file's order
    comma_likely: bool
    mended: frozenset[int]  # row numbers whose quotation mark was never closed
    cautions: tuple[Caution, ...]
    unread: Mapping[str, list[Cell]] = field(default_factory=dict)  # {header: first cells} of the other columns
    notes: tuple[RowNote, ...] = ()
    confidence: Mapping[str, float] = field(default_factory=dict)  # {canonical: how sure, 0 to 1}
    outline: Outline | None = None
    whole: Mapping[str, list[Cell]] = field(default_factory=dict)  # {header: cells}: fees beside `fees`, every row
    states: Mapping[str, list[Cell]] = field(default_factory=dict)  # {header: cells}: states beside `status`, every row
    unfound: tuple[str, ...] = ()  # columns that the seller's mapping calls by a header the file does not have
    formats: tuple[tuple[str, str], ...] = ()  # canonical, a currency that the formats of its numbers show
    repeats: tuple[tuple[int, int], ...] = ()  # of a sold history: rows equal in every cell, the later and the first
    lone: tuple[tuple[int, str], ...] = ()  # of a sold history: words alone that are no goods, and the row below them

    def __len__(self) -> int:
        return len(self.rows)

    @property
    def without(self) -> tuple[str, ...]:
        """Columns of which the seller said that the file has none."""
        return tuple(column for column, header in self.headers.items() if header == NO_COLUMN)

    def cells(self, column: str) -> list[Cell]:
        """The column's cells; blanks where the file has no such column."""
        return self.columns[column] if column in self.columns else [""] * len(self)

    def having(self, columns: Sequence[str]) -> dict[str, list[Cell]]:
        """Those of the columns that the file has."""
        return {column: self.columns[column] for column in columns if column in self.columns}
