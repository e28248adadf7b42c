"""How do two rows make one header?  The upper word belongs to its own column, or to all columns it stands above."""

from collections.abc import Callable, Mapping, Sequence

from models.intake.cells.wordings import plain_words
from models.intake.grid import Cell, Grid, written_cell


def two_line_names(grid: Grid, top: int, score: Callable[[Cell], float]) -> list[Cell]:
    """The rows `top` and `top + 1` read as one header.

    Parameters
    ----------
    grid : Grid
        One sheet.
    top : int
        Position of the upper row.
    score : callable
        How well a header names anything; decides whether a group's word reaches a column that it does not stand on.

    Examples
    --------
    >>> grid = Grid("", [["", "Retail", ""], ["Item", "Unit", "Ext."], ["Mug", "2", "4"]], 1)
    >>> two_line_names(grid, 0, lambda cell: float("Retail" in cell))
    ['Item', 'Retail Unit', 'Retail Ext.']
    """
    upper, lower = grid.rows[top], grid.rows[top + 1]
    reach = _merged_reach(grid, top)
    names: list[Cell] = []
    group: Cell = ""
    for place in range(max(len(upper), len(lower))):
        above = upper[place] if place < len(upper) else ""
        below = lower[place] if place < len(lower) else ""
        group = above or group
        if above == "" and below != "":
            sure = place in reach
            above = group if group and (sure or score(_joined(group, below)) > score(below)) else ""
        names.append(_joined(above, below))
    return names


def _joined(above: Cell, below: Cell) -> str:
    return " ".join(word for word in (written_cell(above), written_cell(below)) if word)


def _merged_reach(grid: Grid, top: int) -> frozenset[int]:
    """Columns that a merged cell of the row covers."""
    spans = [(left, right) for first, left, _, right in grid.merged if first == top and right > left]
    return frozenset(place for left, right in spans for place in range(left + 1, right + 1))


def in_joined_names(
    mapping: Mapping[str, str], lines: Sequence[Sequence[Cell]], names: Sequence[Cell]
) -> dict[str, str]:
    """A mapping that calls columns by one line of their header, with the whole names instead.

    Parameters
    ----------
    mapping : mapping
        {canonical: header in file}.
    lines : sequence of sequences of Cell
        The rows of the header.
    names : sequence of Cell
        The headers as they read.

    Examples
    --------
    >>> lines = [["Item", "Weight"], ["", "kg"]]
    >>> in_joined_names({"weight_kg": "Weight", "brand": "Maker"}, lines, ["Item", "Weight kg"])
    {'weight_kg': 'Weight kg', 'brand': 'Maker'}
    """
    joined = {plain_words(name) for name in names}
    by_line = {
        plain_words(cell): written_cell(names[place])
        for line in reversed(lines)
        for place, cell in enumerate(line)
        if place < len(names) and plain_words(cell) not in joined
    }
    return {
        column: header if plain_words(header) in joined else by_line.get(plain_words(header), header)
        for column, header in mapping.items()
    }
