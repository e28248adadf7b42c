"""Text -> one grid: comma, semicolon, tab or pipe, quoted as RFC 4180 says; a multi-line cell counts as one row.

The standard library's reader does it: reading everything as text it is as fast as pandas, whose import alone takes
half a second of a child that often lives no longer.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import chain

from models.intake.files.damage import CellCleaner
from models.intake.files.delimiters import delimiter_of, sample_of, widths
from models.intake.files.laid_bare import laid_bare
from models.intake.files.quoting import QuotedRows
from models.intake.grid import Cell, CellNote, Grid
from models.intake.limits import limits_in_force
from models.values.errors import TooLarge

_DECLARED = re.compile(r'"?sep=(.)"?\r?\n', re.IGNORECASE)


def delimited_grid(text: str, name: str) -> Grid:
    """The rows of a delimited text.

    Parameters
    ----------
    text : str
        The decoded file.
    name : str
        Its name, for messages only.

    Raises
    ------
    TooLarge
        If it has more rows or columns than the limits allow.
    Unreadable
        If quotation marks are broken throughout.

    Examples
    --------
    >>> delimited_grid('a;b\\n"1;\\n2";3,5\\n', "x.csv").rows
    [['a', 'b'], ['1;\\n2', '3,5']]
    """
    declared = _DECLARED.match(text)  # a spreadsheet obeys this line and does not show it
    if declared:
        text = text[declared.end() :]
    text = text if declared else laid_bare(text)
    delimiter = declared[1] if declared else delimiter_of(text)
    usual = widths(sample_of(text), delimiter).most_common(1)[0][0]
    quoted, reader = QuotedRows(text, delimiter, usual), _Reader(name)
    rows = list(reader.rows(quoted))
    notes = (*reader.notes, *_cut_short(text, rows, usual))
    return Grid("", rows, 1, delimiter == ";", frozenset(quoted.mended), notes)


class _Reader:
    """Takes rows under the limits, and notes the cells that came damaged."""

    def __init__(self, name: str) -> None:
        self._name = name
        self._limits = limits_in_force()
        self._clean = CellCleaner(self._limits.max_cell_characters)
        self.notes: list[CellNote] = []

    def rows(self, quoted: QuotedRows) -> Iterator[list[Cell]]:
        number, share = 0, self._clean.setdefault  # equal cells are kept once
        for rows, lines in quoted.pieces():
            if lines and self._is_clean(rows):
                number += len(lines)
                self._require_room(number, ())
                for row in rows:
                    yield list(map(share, row, row))
                continue
            for row in rows:
                number += 1
                self._require_room(number, row)
                yield self._cleaned(number, row)

    def _is_clean(self, rows: Iterable[list[str]]) -> bool:
        """No cell needs cleaning, and no row is over a limit."""
        return max(map(len, rows)) <= self._limits.max_columns and self._clean.leaves(list(chain.from_iterable(rows)))

    def _cleaned(self, number: int, row: list[str]) -> list[Cell]:
        clean, row = self._clean, row[: self._limits.max_columns]
        cells: list[Cell] = [clean[cell] for cell in row]
        if clean.damage:
            self._note(number, row)
        return cells

    def _require_room(self, number: int, row: Sequence[str]) -> None:
        most = self._limits
        if number > most.max_rows:
            raise TooLarge(f"{self._name} has more than {most.max_rows:,} rows. Split it into smaller files.")
        if len(row) > most.max_columns and "".join(row[most.max_columns :]).strip():
            raise TooLarge(f"{self._name} has more than {most.max_columns} columns in row {number}.")

    def _note(self, number: int, row: list[str]) -> None:
        for place, cell in enumerate(row):
            if cell in self._clean.damage:
                reason, done = self._clean.damage[cell]
                self.notes.append(CellNote(number, place, self._clean[cell], reason, done))


def _cut_short(text: str, rows: list[list[Cell]], usual: int) -> list[CellNote]:
    """The last row ends before its cells do, without a line end: the file was cut off there."""
    if not text or text.endswith(("\n", "\r")) or not 1 < len(rows[-1]) < usual:
        return []
    return [CellNote(len(rows), None, "", "the file ends in the middle of this row", "kept as written")]
