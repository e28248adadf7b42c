"""The rows below a header, sorted: goods, totals, headings of parts, notes.  Blank and repeated header rows go."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from models.intake.cells.number_texts import bare, decimal_of
from models.intake.grid import Cell, Grid
from models.intake.shape.relaid import Layouts
from models.intake.shape.row_kinds import Row, RowJudge, RowKind

_MOST_WORDLESS = 20  # rows without words that are compared with the sums above them


@dataclass(frozen=True)
class SortedRows:
    """Positions in the grid's rows, each in order."""

    data: tuple[int, ...]
    totals: tuple[int, ...]
    parts: tuple[int, ...]
    notes: tuple[int, ...]
    relaid: tuple[int, ...] = ()  # headers that changed the order of the columns


def sort_rows(
    grid: Grid,
    header: range,
    names: Row,
    columns: Mapping[str, int],
    name: str,
    reads_as: Callable[[Cell], str | None] = lambda _: None,
) -> SortedRows:
    """Say what each row below the header is; rows under a header that orders its columns anew are put in order.

    Parameters
    ----------
    grid : Grid
        One sheet.
    header : range
        Positions of the header's rows.
    names : sequence of Cell
        The headers as they read.
    columns : mapping
        {canonical: position of the column}.
    name : str
        The canonical column that names the goods.
    reads_as : callable
        The canonical column that a header names, None if it names none.

    Examples
    --------
    >>> rows = [["Description", "Qty", "SKU"], ["Pallet 1", "", ""], ["Mug", "2", "a"], ["", "", ""],
    ...         ["Description", "Qty", "SKU"], ["Jug", "1", "b"], ["Total", "3", ""], ["All sales final", "", ""]]
    >>> sort_rows(Grid("", rows, 1), range(1), rows[0], {"description": 0, "quantity": 1, "sku": 2}, "description")
    SortedRows(data=(2, 5), totals=(6,), parts=(1,), notes=(7,), relaid=())
    """
    judge = RowJudge(grid.rows, header, names, columns, name)
    found: dict[RowKind, list[int]] = {kind: [] for kind in RowKind}
    layouts = Layouts(names, columns, reads_as)
    for index in range(header.stop, len(grid.rows)):
        if layouts.is_header(index, grid.rows[index]):
            continue
        row = grid.rows[index] = layouts.in_order(grid.rows[index])
        found[judge.kind(row)].append(index)
    data, sums = _without_sums(grid.rows, found[RowKind.DATA], columns[name])
    totals = sorted(found[RowKind.TOTAL] + sums)
    parts, notes = found[RowKind.PART], found[RowKind.NOTE]
    return SortedRows(tuple(data), tuple(totals), tuple(parts), tuple(notes), tuple(layouts.relaid))


def _without_sums(rows: Sequence[Row], kept: list[int], name: int) -> tuple[list[int], list[int]]:
    """A row of numbers alone that repeats the sum of a column above it is a total that was not called one."""
    sums: list[int] = []
    wordless = [
        index
        for index in kept
        if _cell(rows[index], name) == "" and not any(_has_letters(cell) for cell in rows[index])
    ]
    for index in wordless[-_MOST_WORDLESS:]:
        above = [rows[other] for other in kept if other < index]
        if len(above) > 1 and any(_sums_up(above, place, cell) for place, cell in enumerate(rows[index]) if cell != ""):
            kept = [other for other in kept if other != index]
            sums.append(index)
    return kept, sums


def _cell(row: Row, place: int) -> Cell:
    return row[place] if place < len(row) else ""


def _has_letters(cell: Cell) -> bool:
    return isinstance(cell, str) and any(map(str.isalpha, cell))


def _sums_up(above: Sequence[Row], place: int, cell: Cell) -> bool:
    total = _quick_number(cell)
    numbers = [_quick_number(_cell(row, place)) for row in above]
    return total > 1 and sum(1 for number in numbers if number) > 1 and abs(sum(numbers) - total) < 0.005


def _quick_number(cell: Cell) -> float:
    if isinstance(cell, int | float):
        return float(cell)
    core = bare(cell.strip("$€£ "))[0] if isinstance(cell, str) and len(cell) < 40 else ""
    number = decimal_of(core, comma=False)[0] if core else None
    return 0.0 if number is None else float(number)
