"""Where does the table begin?  The row that speaks most of the trade's words, below titles, addresses and logos."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from models.intake.grid import Cell, Grid, written_cell
from models.intake.limits import HEADER_SEARCH_ROWS
from models.intake.matching import PART, given_columns, header_scores
from models.intake.vocabulary import Vocabulary
from models.intake.wordings import plain_words

_ENOUGH = 2.0  # points that make a row a header; a table of one or two columns needs one
_LONGEST_HEADER = 80  # characters; sentences are not headers


@dataclass(frozen=True)
class Header:
    """`index` counts the grid's rows from 0; `points` compare sheets; not `recognised` is a best guess to ask about."""

    index: int
    points: float
    recognised: bool


def find_header(grid: Grid, vocabulary: Vocabulary, mapping: Mapping[str, str]) -> Header:
    """The header row of a grid that has at least one cell.

    Parameters
    ----------
    grid : Grid
        One sheet.
    vocabulary : Vocabulary
        The kind of file.
    mapping : mapping
        {canonical: header in file}; a row that holds these headers is the header.

    Returns
    -------
    Header
        The first of the rows with most points; where no row has enough, the first widest row of words.

    Examples
    --------
    >>> from models.intake.vocabulary import MANIFEST
    >>> rows = [["Autumn load"], ["Qty", "Description", "Retail"], ["2", "Blue mug", "9.99"]]
    >>> find_header(Grid("", rows, 1), MANIFEST, {}).index
    1
    """
    rows = grid.rows[:HEADER_SEARCH_ROWS]
    points = [_points(row, vocabulary, mapping) for row in rows]
    best = max(points, default=0.0)
    index = points.index(best) if points else 0
    filled = sum(1 for cell in rows[index] if cell != "") if rows else 0
    if best >= _ENOUGH or (best >= 1 and filled <= _ENOUGH):
        return Header(index, best, True)
    return Header(_widest(rows), best, False)


def _points(row: Sequence[Cell], vocabulary: Vocabulary, mapping: Mapping[str, str]) -> float:
    """One point a column named, half where only part of a header names it, two where the mapping names it."""
    found: dict[str, float] = {}
    for cell in row:
        if not isinstance(cell, str) or not cell or len(cell) > _LONGEST_HEADER:
            continue
        for column, score in header_scores(plain_words(cell), vocabulary).items():
            found[column] = max(found.get(column, 0.0), 1.0 if score > PART else 0.5)
    given = given_columns(row, vocabulary, mapping) if mapping else {}
    numbers = sum(1 for cell in row if not isinstance(cell, str) or cell.replace(".", "").replace(",", "").isdigit())
    named = min(sum(found.values()), sum(1 for cell in row if cell != ""))
    return max(0.0, named + 2.0 * len(given) - 0.5 * numbers)


def _widest(rows: Sequence[Sequence[Cell]]) -> int:
    def words(row: Sequence[Cell]) -> int:
        return sum(1 for cell in row if isinstance(cell, str) and any(map(str.isalpha, written_cell(cell))))

    counts = [words(row) for row in rows]
    return counts.index(max(counts, default=0)) if counts else 0
