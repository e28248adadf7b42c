"""Delimited text -> rows, as RFC 4180 quotes them; a quotation mark that is never closed costs its own row alone.

A plain reader would take everything up to the next quotation mark for one long cell, and lose those rows silently.
"""

import csv
from collections.abc import Iterable, Iterator, Sequence

from models.values.errors import Unreadable

_PIECE = 4096  # lines read together
_TELLING_WIDTH = 4  # cells; in narrower tables half a multi-line cell may look like a row
_MOST_REREAD = 20  # times the file's lines that may be gone back over, plus as many thousand lines


class QuotedRows:
    """Iterates over rows; `mended` holds the 1-based numbers of those whose open quotation mark was read as a sign."""

    def __init__(self, text: str, delimiter: str, usual_width: int) -> None:
        self._lines = _Lines(text)
        self._delimiter = delimiter
        self._usual = usual_width
        self._reread = 0
        self.mended: list[int] = []

    def __iter__(self) -> Iterator[list[str]]:
        for rows, _ in self.pieces():
            yield from rows

    def pieces(self) -> Iterator[tuple[Iterable[list[str]], Sequence[str]]]:
        """Rows by the thousand with their lines, as long as each row takes one line; then all others, alone."""
        lines = self._lines.all
        while self._lines.next < len(lines):
            piece = lines[self._lines.next : self._lines.next + _PIECE]
            rows = self._one_line_rows(piece)
            if rows is None:
                yield self._checked_rows(self._lines.next), ()
                return
            self._lines.next += len(piece)
            yield rows, piece

    def _one_line_rows(self, piece: Sequence[str]) -> list[list[str]] | None:
        """The rows of some lines at once, if each took one, so that none can have swallowed another."""
        if piece[-1].count('"') % 2:
            return None
        try:
            rows = list(csv.reader(piece, delimiter=self._delimiter, skipinitialspace=self._delimiter != "\t"))
        except csv.Error:  # a cell over the reader's limit
            return None
        return rows if len(rows) == len(piece) else None

    def _checked_rows(self, number: int) -> Iterator[list[str]]:
        """One row after the other from the `number`-th line on, which so many rows came before."""
        rows = csv.reader(self._lines, delimiter=self._delimiter, skipinitialspace=self._delimiter != "\t")
        while True:
            start = self._lines.next
            try:
                row = next(rows)
                broken = self._is_broken(row, start)
            except StopIteration:
                return
            except csv.Error:  # a cell over the reader's limit
                row, broken = [], True
            number += 1
            yield self._mend(start, number) if broken else row

    def _is_broken(self, row: list[str], start: int) -> bool:
        """The row swallowed others: it is of odd width, or its first line is a whole row but for one quotation mark."""
        first_line, taken = self._lines.all[start], self._lines.next - start
        if taken == 1:
            ends_file = self._lines.next == len(self._lines.all)
            return ends_file and len(row) != self._usual and first_line.count('"') % 2 == 1
        if len(row) != self._usual and any(map(self._swallows, row)):
            return True
        whole = first_line.count(self._delimiter) == self._usual - 1 and self._delimiter + " " not in first_line
        if not whole or self._usual < _TELLING_WIDTH or first_line.count('"') % 2 == 0:
            return False
        rest = self._lines.all[start + 1 : self._lines.next]  # of a multi-line last cell, or rows that were swallowed
        return any(line.count(self._delimiter) >= self._usual - 1 for line in rest)

    def _swallows(self, cell: str) -> bool:
        """Whole rows stand in the cell: nearly as many delimiters as its line breaks would bring."""
        breaks = cell.count("\n") or cell.count("\r")
        return breaks > 0 and cell.count(self._delimiter) >= max(1, self._usual - 2, (breaks - 1) * (self._usual - 1))

    def _mend(self, start: int, number: int) -> list[str]:
        self.mended.append(number)
        self._reread += self._lines.next - start - 1
        if self._reread > _MOST_REREAD * (len(self._lines.all) + 1000):
            raise Unreadable("Too many rows have a quotation mark that is never closed.")
        self._lines.next = start + 1
        return self._lines.all[start].rstrip("\r\n").split(self._delimiter)


class _Lines:
    """Physical lines that can be gone back to."""

    def __init__(self, text: str) -> None:
        self.all: Sequence[str] = _physical_lines(text)
        self.next = 0

    def __iter__(self) -> "_Lines":
        return self

    def __next__(self) -> str:
        if self.next >= len(self.all):
            raise StopIteration
        self.next += 1
        return self.all[self.next - 1]


def _physical_lines(text: str) -> list[str]:
    r"""Cut after \n, \r\n and \r alone: the other line breaks of Unicode may stand inside a cell."""
    lines = text.split("\n")
    ended = [line + "\n" for line in lines[:-1]] + ([lines[-1]] if lines[-1] else [])
    if "\r" not in text or text.count("\r") == text.count("\r\n"):
        return ended
    return [part for line in ended for part in _at_lone_returns(line)]


def _at_lone_returns(line: str) -> list[str]:
    parts = line.replace("\r\n", "\n").split("\r")
    return [part + "\r" for part in parts[:-1]] + ([parts[-1]] if parts[-1] else [])
