"""Where does the table begin?  The row that speaks most of the trade's words, below titles, addresses and logos.

A header may be two rows high: groups above their columns, or names that wrap.  Then both rows are read as one.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from models.intake.cells.wordings import plain_words
from models.intake.columns.column_names import places_of
from models.intake.columns.header_words import PART, header_scores
from models.intake.columns.vocabulary import Vocabulary
from models.intake.grid import Cell, Grid, written_cell
from models.intake.limits import HEADER_SEARCH_ROWS
from models.intake.shape.header_lines import in_joined_names, two_line_names
from models.intake.shape.headerless import first_data_row

_ENOUGH = 2.0  # points that make a row a header; a table of one or two columns needs one
_UNIT_ROW = re.compile(
    r"[(\[]?\s*(?:pcs?|pieces|units?|ea|each|kg|g|gr|lbs?|oz|cm|mm|in|usd|eur|gbp|cad|aud|jpy|chf|[$€£¥]|stk|stück|text|#)"
    r"\.?\s*[)\]]?",
    re.IGNORECASE,
)
_NUMBER = re.compile(r"[\d,]*\.?\d+\.?")
_SIZES = 4  # columns called by numbers that may be sizes
_LONGEST_HEADER = 80  # characters; sentences are not headers


@dataclass(frozen=True)
class Header:
    """`index` is the header's last row, counted from 0, -1 before the first; not `recognised` is to be asked about.

    `points` compare sheets, `names` are the headers as they read, `top` is the header's first row.
    """

    index: int
    points: float
    recognised: bool
    names: tuple[Cell, ...] = ()
    top: int = 0


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
        The first of the rows with most points; where no row has enough, the first widest row of words, or a header
        without names above a first row that is data.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> rows = [["Autumn load"], ["Qty", "Description", "Retail"], ["2", "Blue mug", "9.99"]]
    >>> find_header(Grid("", rows, 1), MANIFEST, {}).index
    1
    """
    rows = grid.rows[:HEADER_SEARCH_ROWS]
    points = [_points(row, vocabulary, mapping) for row in rows]
    best = max(points, default=0.0)
    index = points.index(best) if points else 0
    two = _two_rows(grid, points, vocabulary, mapping)
    if two is not None and two.points >= best + 1:
        return two
    filled = sum(1 for cell in rows[index] if cell != "") if rows else 0
    if best >= _ENOUGH or (best >= 1 and filled <= _ENOUGH):
        return _with_units(Header(index, best, True, tuple(rows[index]), index), grid)
    data = first_data_row(rows)
    if data is not None:
        return Header(data - 1, best, False, ("",) * len(rows[data]), data)
    index = _widest(rows)
    return Header(index, best, False, tuple(rows[index]) if rows else (), index)


def _two_rows(grid: Grid, points: Sequence[float], vocabulary: Vocabulary, mapping: Mapping[str, str]) -> Header | None:
    """The best pair of rows, both words alone, if any has points enough."""
    found: Header | None = None
    for top in range(len(points) - 1):
        if not (_words(grid.rows[top]) and _words(grid.rows[top + 1]) > 1 and top + 2 < len(grid.rows)):
            continue
        names = two_line_names(grid, top, lambda cell: _best_score(cell, vocabulary))
        score = _points(names, vocabulary, in_joined_names(mapping, grid.rows[top : top + 2], names))
        if score > max(_ENOUGH, found.points if found else 0.0):
            found = Header(top + 1, score, True, tuple(names), top)
    return found and _with_third_row(found, grid, vocabulary, mapping)


def _with_third_row(two: Header, grid: Grid, vocabulary: Vocabulary, mapping: Mapping[str, str]) -> Header:
    """The header with the row of words below it, where that names a column itself and makes the header say more."""
    below = two.index + 1
    names_one = any(_best_score(cell, vocabulary) > PART for cell in grid.rows[below] if cell != "")
    if _words(grid.rows[below]) < 2 or not names_one or below + 1 >= len(grid.rows):
        return two
    joined = replace(grid, rows=[*grid.rows[: two.index], list(two.names), *grid.rows[below:]])
    names = two_line_names(joined, two.index, lambda cell: _best_score(cell, vocabulary))
    score = _points(names, vocabulary, in_joined_names(mapping, grid.rows[two.top : below + 1], names))
    return Header(below, score, True, tuple(names), two.top) if score > two.points else two


def _with_units(header: Header, grid: Grid) -> Header:
    """The header with the row of units of measure below it, if there is one: "Weight" above "kg"."""
    below = grid.rows[header.index + 1] if header.index + 1 < len(grid.rows) else []
    filled = [cell for cell in below if cell != ""]
    if not filled or not all(isinstance(cell, str) and _UNIT_ROW.fullmatch(cell) for cell in filled):
        return header
    names = two_line_names(grid, header.index, lambda _: 0.0)
    return replace(header, index=header.index + 1, names=tuple(names))


def column_named(cell: Cell, vocabulary: Vocabulary) -> str | None:
    """The column that a header surely names, None for any other word.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> column_named("Qty.", MANIFEST), column_named("Blue mug", MANIFEST)
    ('quantity', None)
    """
    scores = _scores(cell, vocabulary)
    best = max(scores, key=lambda column: scores[column], default=None)
    return best if best is not None and scores[best] > PART else None


def _best_score(cell: Cell, vocabulary: Vocabulary) -> float:
    return max(_scores(cell, vocabulary).values(), default=0)


def _scores(cell: Cell, vocabulary: Vocabulary) -> dict[str, int]:
    """Without a unit of measure: "Unit" alone may as well stand below "Retail".  A second category is one, too."""
    scores = header_scores(plain_words(cell), vocabulary)
    return {column: score for column, score in scores.items() if column not in ("counted_in", "category_below")}


def _words(row: Sequence[Cell]) -> int:
    """How many words stand in a row of words alone; 0 for any other row."""
    filled = [cell for cell in row if cell != ""]
    alone = all(isinstance(cell, str) and not any(map(str.isdigit, cell)) for cell in filled)
    return len(filled) if alone else 0


def _points(row: Sequence[Cell], vocabulary: Vocabulary, mapping: Mapping[str, str]) -> float:
    """One point a column named, half where only part of a header names it, two where the mapping names it."""
    found: dict[str, float] = {}
    by_cells = 0.0  # a cell names one column, whatever it may mean: "sold"
    for cell in row:
        if not isinstance(cell, str) or not cell or len(cell) > _LONGEST_HEADER:
            continue
        points = {column: 1.0 if score > PART else 0.5 for column, score in _scores(cell, vocabulary).items()}
        found |= {column: max(found.get(column, 0.0), one) for column, one in points.items()}
        by_cells += max(points.values(), default=0.0)
    wanted = {column: header for column, header in mapping.items() if column in vocabulary.wordings}
    given = places_of(wanted, [" ".join(written_cell(cell).split()) for cell in row]) if wanted else {}
    numbers = _numbers(row)
    named = min(sum(found.values()), by_cells)
    return max(0.0, named + 2.0 * len(given) - 0.5 * numbers)


def _numbers(row: Sequence[Cell]) -> int:
    """Numbers that make a row data; a run of rising ones may be sizes."""
    found = [
        written_cell(cell).replace(",", "") for cell in row if not isinstance(cell, str) or _NUMBER.fullmatch(cell)
    ]
    values = [float(cell) if _NUMBER.fullmatch(cell) else 0.0 for cell in found]
    rising = len(values) >= _SIZES and all(before < after for before, after in pairwise(values))
    return 0 if rising else len(found)


def _widest(rows: Sequence[Sequence[Cell]]) -> int:
    def words(row: Sequence[Cell]) -> int:
        return sum(1 for cell in row if isinstance(cell, str) and any(map(str.isalpha, written_cell(cell))))

    counts = [words(row) for row in rows]
    return counts.index(max(counts, default=0)) if counts else 0
