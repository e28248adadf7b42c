"""Text -> one grid: comma, semicolon, tab or pipe, quoted as RFC 4180 says; a multi-line cell counts as one row.

The standard library's reader does it: reading everything as text it is as fast as pandas, whose import alone takes
half a second of a child that often lives no longer.
"""

import csv
import io
import re
from collections import Counter
from collections.abc import Iterable, Iterator

from models.intake.grid import Cell, Grid, unwrapped
from models.intake.limits import MAX_COLUMNS, MAX_ROWS
from models.intake.quoting import QuotedRows
from models.values.errors import TooLarge

_DELIMITERS = ("\t", ";", "|", ",")  # rarer in prose first: ties go to it
_EVEN_SHARE = 0.9  # of rows as wide as each other, where every delimiter is followed by a space as in prose
_SAMPLE_CHARACTERS = 1 << 16
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
        If it has more than `MAX_ROWS` rows or `MAX_COLUMNS` columns.
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
    delimiter = declared[1] if declared else delimiter_of(text)
    quoted = QuotedRows(text, delimiter, _widths(_sample(text), delimiter).most_common(1)[0][0])
    rows = list(_checked(quoted, name))
    return Grid("", rows, 1, delimiter == ";", frozenset(quoted.mended))


def delimiter_of(text: str) -> str:
    """The sign that cuts most rows into the same number of cells.

    Examples
    --------
    >>> delimiter_of("a;b;c\\nx;1,5;2\\n"), delimiter_of("alone\\n")
    (';', '\\t')
    """
    sample = _sample(text)
    return max(_DELIMITERS, key=lambda delimiter: _strength(sample, delimiter))


def _sample(text: str) -> str:
    sample = text[:_SAMPLE_CHARACTERS]
    if len(text) > _SAMPLE_CHARACTERS:
        sample = sample[: max(sample.rfind("\n"), sample.rfind("\r")) + 1] or sample
    return sample


def _widths(sample: str, delimiter: str) -> Counter[int]:
    """How many rows of each number of cells."""
    reader = csv.reader(io.StringIO(sample, newline=""), delimiter=delimiter, skipinitialspace=delimiter != "\t")
    return Counter(len(row) for row in reader if row)


def _strength(sample: str, delimiter: str) -> int:
    widths = _widths(sample, delimiter)
    width, count = max(widths.items(), key=lambda item: (item[0] - 1) * item[1], default=(1, 0))
    in_prose = sample.count(delimiter) == sample.count(delimiter + " ")
    return 0 if in_prose and count < _EVEN_SHARE * widths.total() else (width - 1) * count


def _checked(rows: Iterable[list[str]], name: str) -> Iterator[list[Cell]]:
    clean = _Clean()
    for row_number, row in enumerate(rows, start=1):
        if row_number > MAX_ROWS:
            raise TooLarge(f"{name} has more than {MAX_ROWS:,} rows. Split it into smaller files.")
        if len(row) > MAX_COLUMNS and len("".join(row[MAX_COLUMNS:]).strip()) > 0:
            raise TooLarge(f"{name} has more than {MAX_COLUMNS} columns in row {row_number}.")
        yield [clean[cell] for cell in row[:MAX_COLUMNS]]


class _Clean(dict[str, str]):
    """Each distinct text is cleaned and kept once: long files repeat themselves."""

    def __missing__(self, cell: str) -> str:
        clean = unwrapped(cell)
        self[cell] = clean
        return clean
