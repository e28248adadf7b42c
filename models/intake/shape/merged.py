"""What does a merged cell say?  It belongs to every row it covers, if it holds a word or key; a sum does not divide."""

from collections.abc import Mapping, Sequence

from models.intake.cells.word_lists import word_list
from models.intake.grid import Cell, CellNote, Grid, written_cell

_COUNTED = frozenset(
    word_list("""
    quantity; tag_each; tag_line; weight_kg; pack_size; sold_price; asking_price; cost; fees; shipping_charged;
    shipping_paid; refunded; listing_minutes
""")
)
_REASON = "a number in a cell merged over several rows"
_DONE = "counted in its first row only"


def fill_merged(grid: Grid, header: int, places: Mapping[str, int]) -> list[CellNote]:
    """Write words and keys of merged cells into every filled row they cover; numbers stay in the first row, told.

    Parameters
    ----------
    grid : Grid
        One sheet; its rows are changed.
    header : int
        Position of the header's last row.
    places : mapping
        {canonical: position of the column}.

    Examples
    --------
    >>> rows = [["Brand", "Item", "Qty"], ["Orrin", "Mug", 2], ["", "Jug", ""]]
    >>> grid = Grid("", rows, 1, merged=((1, 0, 2, 0), (1, 2, 2, 2)))
    >>> notes = fill_merged(grid, 0, {"brand": 0, "description": 1, "quantity": 2})
    >>> grid.rows[2], notes[0].reason
    (['Orrin', 'Jug', ''], 'a number in a cell merged over several rows')
    """
    columns = {place: column for column, place in places.items()}
    notes = []
    owned = {index: any(cell != "" for cell in grid.rows[index]) for index in _covered(grid, header)}
    for top, left, bottom, right in grid.merged:
        if top <= header or bottom <= top or right != left or left not in columns or top >= len(grid.rows):
            continue
        cell = grid.rows[top][left] if left < len(grid.rows[top]) else ""
        below = [index for index in range(top + 1, bottom + 1) if owned.get(index)]
        if cell == "" or not below:
            continue
        if columns[left] in _COUNTED:
            notes.append(CellNote(top + grid.first_row, left, written_cell(cell), _REASON, _DONE))
            continue
        for index in below:
            _write(grid.rows[index], left, cell)
    return notes


def _covered(grid: Grid, header: int) -> Sequence[int]:
    """Rows below the first of each merged cell, where the grid has them."""
    spans = [(top, min(bottom, len(grid.rows) - 1)) for top, _, bottom, _ in grid.merged if top > header]
    return sorted({index for top, bottom in spans for index in range(top + 1, bottom + 1)})


def _write(row: list[Cell], place: int, cell: Cell) -> None:
    row.extend([""] * (place + 1 - len(row)))
    row[place] = cell
