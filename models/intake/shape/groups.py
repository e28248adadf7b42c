"""Rows that sum the rows below them, group after group, as pivot tables put them above what they sum."""

from collections.abc import Mapping, Sequence

from models.intake.columns.glances import quick_number
from models.intake.grid import Cell

_CLOSE = 0.011  # major units that a sum of money may be off
_COUNTED = ("quantity", "tag_line", "tag_each")
_ENOUGH = 2  # groups, rows in one of them, and columns that agree, where no total tells


def group_heads(
    rows: Sequence[Sequence[Cell]], data: Sequence[int], totals: Sequence[int], columns: Mapping[str, int]
) -> list[int]:
    """Positions of such rows: each number of theirs is the sum of the rows down to the next, from the first row on.

    A total must be the sum of the others, or two columns must agree in every group.

    Parameters
    ----------
    rows : sequence of sequences of Cell
        The sheet.
    data : sequence of int
        Positions of the rows of goods, rising.
    totals : sequence of int
        Positions of totals.
    columns : mapping
        {canonical: position of the column}.

    Examples
    --------
    >>> rows = [["Lamps", 5], ["Table lamp", 2], ["Desk lamp", 3], ["Clocks", 4], ["Wall clock", 4], ["Total", 9]]
    >>> group_heads(rows, [0, 1, 2, 3, 4], [5], {"quantity": 1})
    [0, 3]
    """
    places = [columns[name] for name in _COUNTED if name in columns]
    heads: list[int] = []
    at, largest = 0, 0
    while at < len(data):
        behind = _behind(rows, data, at, places)
        if behind is None:  # most files: the second row is not what the first one is
            return []
        heads.append(data[at])
        largest = max(largest, behind - at - 1)
        at = behind
    if len(heads) < _ENOUGH or largest < _ENOUGH:
        return []
    sums = [sum(one) for one in zip(*(_numbers(rows[head], places) for head in heads), strict=True)]
    known = [place for place, total in zip(places, sums, strict=True) if total]
    told = any(_same(_numbers(rows[total], places), sums) for total in totals)
    return heads if told or len(known) >= _ENOUGH else []


def _behind(rows: Sequence[Sequence[Cell]], data: Sequence[int], at: int, places: Sequence[int]) -> int | None:
    """The place behind the rows that a head sums; None where they do not come out."""
    sums = _numbers(rows[data[at]], places)
    below = [0.0] * len(sums)
    if not any(sums):
        return None
    for place in range(at + 1, len(data)):
        below = list(map(float.__add__, below, _numbers(rows[data[place]], places)))
        if _same(below, sums):
            return place + 1
        if any(one > most + _CLOSE for one, most in zip(below, sums, strict=True)):
            return None
    return None


def _same(some: Sequence[float], others: Sequence[float]) -> bool:
    return any(others) and all(abs(one - other) < _CLOSE for one, other in zip(some, others, strict=True))


def _numbers(row: Sequence[Cell], places: Sequence[int]) -> list[float]:
    return [(quick_number(row[place]) or 0.0) if place < len(row) else 0.0 for place in places]
