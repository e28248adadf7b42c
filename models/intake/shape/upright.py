"""Does a table lie on its side, each column one line?  Then it is set upright, and its row numbers are its columns'."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import zip_longest

from models.intake.cells.wordings import plain_words
from models.intake.columns.header_words import PART, header_scores
from models.intake.columns.vocabulary import Vocabulary
from models.intake.grid import Cell, Grid
from models.intake.limits import HEADER_SEARCH_ROWS
from models.intake.shape.header import find_header
from models.intake.shape.sheet import Sheet

_MOST_FIELDS = 40  # rows of a table that lies on its side
_FEWEST = 3  # columns that its first cells must name; common practice, no source
_LOOKED_AT = 3  # columns from the left
_NARROWEST = 2


def set_upright(grid: Grid, vocabulary: Vocabulary) -> Grid:
    """The grid, or the grid with its rows and columns exchanged where its names stand below each other.

    Parameters
    ----------
    grid : Grid
        One sheet.
    vocabulary : Vocabulary
        The kind of file.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> rows = [["Description", "Mug", "Jug"], ["Qty", "2", "1"], ["Retail", "9", "5"]]
    >>> set_upright(Grid("", rows, 1), MANIFEST).rows[1]
    ['Mug', '2', '9']
    """
    if not grid.rows or len(grid.rows) > _MOST_FIELDS or grid.width < _NARROWEST:
        return grid
    down = max(_named([row[place] for row in grid.rows if place < len(row)], vocabulary) for place in range(_LOOKED_AT))
    across = max(_named(row, vocabulary) for row in grid.rows[:HEADER_SEARCH_ROWS])
    if down < _FEWEST or across > 1:
        return grid
    rows = [list(cells) for cells in zip_longest(*grid.rows, fillvalue="")]
    merged = tuple((left, top, right, bottom) for top, left, bottom, right in grid.merged)
    return replace(grid, rows=rows, first_row=1, merged=merged, notes=(), mended=frozenset(), hidden_rows=frozenset(),
                   on_its_side=True)  # fmt: skip


def upright_sheets(grids: Sequence[Grid], vocabulary: Vocabulary, mapping: Mapping[str, str]) -> list[Sheet]:
    """Each sheet with its header; a lone one, or sheets none of which is a table as it stands, may lie on their side.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> rows = [["Description", "Mug", "Jug"], ["Qty", "2", "1"], ["Retail", "9", "5"]]
    >>> upright_sheets([Grid("", rows, 1)], MANIFEST, {})[0].header.names
    ('Description', 'Qty', 'Retail')
    """
    sheets = [Sheet(grid, find_header(grid, vocabulary, mapping)) for grid in grids]
    if len(sheets) > 1 and any(sheet.names_goods(vocabulary) is not None for sheet in sheets):
        return sheets
    upright = [set_upright(grid, vocabulary) for grid in grids]
    return [
        sheet if new is sheet.grid else Sheet(new, find_header(new, vocabulary, mapping))
        for sheet, new in zip(sheets, upright, strict=True)
    ]


def _named(cells: Sequence[Cell], vocabulary: Vocabulary) -> int:
    """How many columns these cells surely name, each once."""
    found: set[str] = set()
    for cell in cells:
        if isinstance(cell, str) and cell:
            scores = header_scores(plain_words(cell), vocabulary)
            best = max(scores, key=lambda column: scores[column], default=None)
            found |= {best} if best is not None and scores[best] > PART else set()
    return len(found)
