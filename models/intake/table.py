"""From a file to its data columns: the sheet that holds the table, its header, which column is which, its data rows."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from models.intake.grid import Cell, Grid, written_cell
from models.intake.header import Header, find_header
from models.intake.limits import SAMPLE_ROWS
from models.intake.matching import check_mapping, match_columns
from models.intake.readers import read_grids
from models.intake.rows import data_rows
from models.intake.vocabulary import Vocabulary
from models.values.arrays import IntArray
from models.values.problems import Caution


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

    def __len__(self) -> int:
        return len(self.rows)

    def cells(self, column: str) -> list[Cell]:
        """The column's cells; blanks where the file has no such column."""
        return self.columns[column] if column in self.columns else [""] * len(self)

    def having(self, columns: Sequence[str]) -> dict[str, list[Cell]]:
        """Those of the columns that the file has."""
        return {column: self.columns[column] for column in columns if column in self.columns}


def read_table(data: bytes, filename: str, vocabulary: Vocabulary, mapping: Mapping[str, str]) -> Table:
    """The table a file holds.

    Parameters
    ----------
    data : bytes
        The whole file.
    filename : str
        Its name, for messages only.
    vocabulary : Vocabulary
        The kind of file.
    mapping : mapping
        {canonical: header in file}; wins over what is recognised.

    Raises
    ------
    Unreadable, TooLarge
        If there is no table to be read.
    NeedsColumns
        If a required column is not recognised.
    Rejected
        If the mapping has a key no file has.

    Examples
    --------
    >>> from models.intake.vocabulary import MANIFEST
    >>> table = read_table(b"Load 7\\nItem;Qty\\nBlue mug;2\\n", "x.csv", MANIFEST, {})
    >>> table.rows.tolist(), table.columns["description"], table.headers["quantity"]
    ([3], ['Blue mug'], 'Qty')
    """
    check_mapping(mapping)
    grids = read_grids(data, filename)
    headers = [find_header(grid, vocabulary, mapping) for grid in grids]
    chosen = max(range(len(grids)), key=lambda place: (headers[place].points, len(grids[place].rows), -place))
    return _table(grids[chosen], headers[chosen], vocabulary, mapping, _unread(grids, chosen))


def _table(
    grid: Grid, header: Header, vocabulary: Vocabulary, mapping: Mapping[str, str], cautions: tuple[Caution, ...]
) -> Table:
    names = grid.rows[header.index]
    below = grid.rows[header.index + 1 : header.index + 1 + SAMPLE_ROWS]
    samples = [_column(below, place) for place in range(len(names))]
    columns = match_columns(names, samples, vocabulary, mapping)
    kept = data_rows(grid, header.index, columns, vocabulary.required[0])
    chosen = [grid.rows[index] for index in kept]
    return Table(
        np.array(kept, dtype=np.int64) + grid.first_row,
        {column: _column(chosen, place) for column, place in columns.items()},
        {column: written_cell(names[place]) for column, place in columns.items()},
        tuple(name for cell in names if (name := written_cell(cell).strip())),
        grid.decimal_comma_likely,
        grid.mended,
        cautions,
    )


def _column(rows: Sequence[Sequence[Cell]], place: int) -> list[Cell]:
    return [row[place] if place < len(row) else "" for row in rows]


def _unread(grids: Sequence[Grid], chosen: int) -> tuple[Caution, ...]:
    others = [grid.name for place, grid in enumerate(grids) if place != chosen]
    if not others:
        return ()
    named = ", ".join(f"'{name}'" for name in others[:5])
    what = f"Only the sheet '{grids[chosen].name}' was read; the file also has {named}."
    return (Caution(what, "If they hold lines too, put all lines into one sheet."),)
