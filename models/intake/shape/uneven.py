"""Rows of a text file with more or fewer cells than its header: cells have moved, or a comma has cut an amount in two.

The shares are rules of thumb, common practice, no source.
"""

import re
from collections.abc import Sequence

from models.intake.cells.price_words import price_sort
from models.intake.cells.reading import ASIDE
from models.intake.columns.glances import Glance, glance, quick_number
from models.intake.grid import Cell, Grid, is_blank, written_cell
from models.intake.limits import SAMPLE_ROWS
from models.intake.many import columns_of
from models.intake.shape.row_notes import RowNote
from models.values.problems import Caution

FEWER = "fewer cells than the header, and they do not fit their columns"
MORE = "more cells than the header: a comma inside an amount or a text may have cut it in two"
_WHOLE, _CENTS = re.compile(r"[$€£]?\d{1,7}"), re.compile(r"\d{2}\s*[$€£]?")
_CLEAR, _RARE = 0.8, 0.1  # share of a column's cells that tells its kind, and that is beside it
_FEWEST_JOINED = 2  # rows


def rejoin_amounts(grid: Grid, first: int, names: Sequence[Cell]) -> tuple[Caution, ...]:
    """Put amounts together that their own decimal comma cut in two, where every row then fits; told in a caution.

    Parameters
    ----------
    grid : Grid
        A delimited file; its rows are changed.
    first : int
        Position of the first row below the header.
    names : sequence of Cell
        The headers.

    Examples
    --------
    >>> rows = [["Item", "Price", "State"], ["Mug", "12", "50", "new"], ["Jug", "149", "00", "used"]]
    >>> told = rejoin_amounts(grid := Grid("", rows, 1), 1, rows[0])
    >>> grid.rows[1], told[0].what
    (['Mug', '12,50', 'new'], "A decimal comma had cut the amounts in 'Price' in two: 2 rows were put together again.")
    """
    width = _width(names)
    if grid.name or not width or max(map(len, grid.rows), default=0) <= width:
        return ()
    long = [index for index in range(first, len(grid.rows)) if _is_long(grid.rows[index], width)]
    if len(long) < _FEWEST_JOINED or 2 * len(long) < len(grid.rows) - first:
        return ()
    places = [place for place in range(width) if all(_cut(grid.rows[index], place, width) for index in long)]
    priced = [place for place in places if price_sort(written_cell(names[place]))]
    others = [row for row in grid.rows[first:] if priced and len(row) > priced[0] and not _is_long(row, width)]
    if len(priced) != 1 or any("." in written_cell(row[priced[0]]) for row in others):
        return ()
    [place] = priced
    for index in long:
        row = grid.rows[index]
        whole = f"{written_cell(row[place])},{written_cell(row[place + 1])}"
        grid.rows[index] = [*row[:place], whole, *row[place + 2 : width + 1]]
    counted = f"{len(long):,} rows were"
    what = (
        f"A decimal comma had cut the amounts in '{written_cell(names[place])}' in two: {counted} put together again."
    )
    return (Caution(what, "Compare some amounts with the file as its writer sees it."),)


def uneven_notes(grid: Grid, rows: Sequence[Sequence[Cell]], names: Sequence[Cell]) -> list[RowNote]:
    """Rows of a delimited file whose cells have moved: set aside, and named.

    Parameters
    ----------
    grid : Grid
        The file.
    rows : sequence of sequences of Cell
        The data rows.
    names : sequence of Cell
        The headers.

    Examples
    --------
    >>> rows = [["Mug", "Acme", "2", "9.50"], ["Jug", "1", "3.00"]]
    >>> [note.index for note in uneven_notes(Grid("", [], 1), rows, ["Item", "Brand", "Qty", "MSRP"])]
    [1]
    """
    width = _width(names)
    if grid.name or not width or set(map(len, rows)) <= {width}:
        return []
    lengths = list(map(len, rows))
    short = [index for index, length in enumerate(lengths) if 1 < length < width]
    long = [index for index, length in enumerate(lengths) if length > width and _is_long(rows[index], width)]
    even = [row for row in rows[:SAMPLE_ROWS] if width <= len(row) and not _is_long(row, width)]
    if not even or not (short or 2 * len(long) < len(rows)):
        return []
    seen = [glance(cells) for cells in columns_of(even, range(width))]
    asides = [RowNote(index, "", _told(rows[index]), FEWER, ASIDE) for index in short if _moved(rows[index], seen)]
    asides += [
        RowNote(index, "", _told(rows[index]), MORE, ASIDE)
        for index in long
        if _moved(rows[index], seen) or any(_cut(rows[index], place, width) for place in range(width))
    ]
    return sorted(asides, key=lambda note: note.index)


def _width(names: Sequence[Cell]) -> int:
    return max((place + 1 for place, name in enumerate(names) if name != ""), default=0)


def _is_long(row: Sequence[Cell], width: int) -> bool:
    return len(row) > width and any(cell != "" for cell in row[width:])


def _cut(row: Sequence[Cell], place: int, width: int) -> bool:
    """Joined with its neighbour, this cell is an amount and the row as long as the header."""
    if _is_long(row, width + 1) or place + 1 >= len(row):
        return False
    return bool(_WHOLE.fullmatch(written_cell(row[place])) and _CENTS.fullmatch(written_cell(row[place + 1])))


def _moved(row: Sequence[Cell], seen: Sequence[Glance]) -> bool:
    """A number where the other rows have words, words where they have numbers, or cents where they have counts."""
    return any(_strange(cell, look) for cell, look in zip(row, seen, strict=False) if not is_blank(written_cell(cell)))


def _strange(cell: Cell, look: Glance) -> bool:
    if not look.filled:
        return False
    number = quick_number(cell)
    if number is None:
        return look.number > _CLEAR and not any(map(str.isdigit, written_cell(cell)))
    if look.text > _CLEAR and look.number < _RARE:
        return written_cell(cell).strip("$€£ ").replace(".", "").replace(",", "").isdigit()
    return look.units > _CLEAR and look.cents < _RARE and number != int(number)


def _told(row: Sequence[Cell]) -> str:
    return ", ".join(map(written_cell, row))
