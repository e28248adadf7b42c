"""The rows below a header, sorted: goods, totals, headings of parts, notes, blank rows and repeated headers."""

import itertools
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from operator import and_

from models.intake.grid import Cell, Grid
from models.intake.shape.relaid import Layouts
from models.intake.shape.row_kinds import Row, RowJudge, RowKind
from models.intake.shape.sums import without_named_sums, without_summed_headings, without_wordless_sums

_OF_DATA = (RowKind.DATA, RowKind.DOUBT, RowKind.WRAPPED, RowKind.CHARGE)
_UNSETTLED = (RowKind.HEADING, RowKind.FOOTER, RowKind.EITHER)
_FEWEST_WRAPPED, _MOSTLY_WRAPPED = 3, 0.6  # rows, and their share of the full rows; common practice, no source


@dataclass(frozen=True)
class SortedRows:
    """Positions in the grid's rows, each in order."""

    data: tuple[int, ...]
    totals: tuple[int, ...]
    parts: tuple[int, ...]
    notes: tuple[int, ...]
    relaid: tuple[int, ...] = ()  # headers that changed the order of the columns
    doubted: tuple[int, ...] = ()  # of the data: words alone that may be goods or a note
    wrapped: tuple[int, ...] = ()  # of the data: more words of the row above
    charges: tuple[int, ...] = ()  # of the data: costs, no goods
    headers: tuple[int, ...] = ()  # repeated below the first
    blank: tuple[int, ...] = ()


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
    >>> columns = {"description": 0, "quantity": 1, "sku": 2}
    >>> done = sort_rows(Grid("", rows, 1), range(1), rows[0], columns, "description")
    >>> done.data, done.totals, done.parts, done.notes, done.headers, done.blank
    ((2, 5), (6,), (1,), (7,), (4,), (3,))
    """
    judge = RowJudge(grid.rows, header, names, columns, name)
    kinds: dict[int, RowKind] = {}
    closer: set[int] = set()
    layouts = Layouts(names, columns, reads_as)
    below = grid.rows[header.stop :]
    at_sight = map(and_, judge.surely_goods(below), layouts.surely_no_headers(below))
    for index, surely_goods in enumerate(at_sight, start=header.stop):
        if surely_goods and not layouts.changed:
            judge.see_goods()
            kinds[index] = RowKind.DATA
            continue
        if layouts.is_header(index, grid.rows[index]):
            kinds[index] = RowKind.HEADER
            continue
        row = grid.rows[index] = layouts.in_order(grid.rows[index])
        kinds[index] = judge.kind(row)
        if judge.looked_closer:
            closer.add(index)
    found = _settled(kinds)
    marks = [*found[RowKind.PART], *found[RowKind.TOTAL]]
    looked = [index for index in found[RowKind.DATA] if index in closer]
    kept, named = without_named_sums(grid.rows, found[RowKind.DATA], looked, marks, columns[name])
    kept, heads = without_summed_headings(grid.rows, kept, looked, [*marks, *named], columns, columns[name])
    data, sums = without_wordless_sums(grid.rows, kept, looked, columns[name])
    return SortedRows(
        tuple(data),
        tuple(sorted(found[RowKind.TOTAL] + named + sums)),
        tuple(sorted(found[RowKind.PART] + heads)),
        tuple(found[RowKind.NOTE]),
        tuple(layouts.relaid),
        tuple(found[RowKind.DOUBT]),
        tuple(found[RowKind.WRAPPED]),
        tuple(found[RowKind.CHARGE]),
        tuple(found[RowKind.HEADER]),
        tuple(found[RowKind.BLANK]),
    )


def _settled(kinds: Mapping[int, RowKind]) -> dict[RowKind, list[int]]:
    """Rows by kind, each in order; what words alone are is told by the rows around them.  Doubted rows are data too."""
    data = [index for index, kind in kinds.items() if kind is RowKind.DATA]
    others: dict[int, RowKind] = {index: kind for index, kind in kinds.items() if kind is not RowKind.DATA}
    goods = {*data, *(index for index, kind in others.items() if kind is RowKind.LONE)} if others else set()
    last, wrapped = max(goods, default=-1), _wrapped(kinds)
    found: dict[RowKind, list[int]] = {kind: [] for kind in RowKind} | {RowKind.DATA: data}
    for index, kind in others.items():
        if kind in _UNSETTLED:
            heads = kind is not RowKind.FOOTER and index + 1 in goods
            ends = kind is not RowKind.HEADING and index > last
            kind = RowKind.NOTE if heads or ends else RowKind.DOUBT
        elif kind is RowKind.LONE:
            kind = RowKind.WRAPPED if index in wrapped else RowKind.DATA
        found[kind].append(index)
    found[RowKind.DATA] = sorted(itertools.chain(*(found[kind] for kind in _OF_DATA)))
    return found


def _wrapped(kinds: Mapping[int, RowKind]) -> set[int]:
    """Words alone that go on what the row above began: so in files where most full rows have such a row below."""
    lone = [index for index, kind in kinds.items() if kind is RowKind.LONE]
    if not lone:
        return set()
    below = {index for index in lone if kinds.get(index - 1) is RowKind.DATA}
    full = sum(1 for kind in kinds.values() if kind is RowKind.DATA)
    return below if len(below) >= max(_FEWEST_WRAPPED, _MOSTLY_WRAPPED * full) else set()
