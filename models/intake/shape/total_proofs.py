"""Does a total of the file count rows of which words leave it open whether they are goods of the lot?"""

from bisect import bisect_left
from collections.abc import Collection, Mapping, Sequence
from functools import cached_property

import numpy as np

from models.intake.columns.glances import quick_number
from models.intake.grid import Cell, row_text
from models.intake.shape.total_words import may_be_goods, total_of_all
from models.values.arrays import FloatArray

_MOST_LOOSE = 20  # totals whose words may be goods
_CLOSE = 0.011  # major units that a sum of money may be off


class Sums:
    """Adds up the units and the money of rows: of all, and of those that are surely goods of the lot.

    Parameters
    ----------
    rows : sequence of sequences of Cell
        The sheet.
    columns : mapping
        {canonical: position of the column}.
    data : sequence of int
        Positions of the rows of goods, rising.
    doubted : collection of int
        Those of them that may be none.

    Examples
    --------
    >>> rows = [["Mug", 2], ["Jug", 1], ["Pot", 4], ["Total", 6]]
    >>> sums = Sums(rows, {"quantity": 1}, [0, 1, 2], {1})
    >>> sums.counted(1, [3])
    False
    """

    def __init__(
        self, rows: Sequence[Sequence[Cell]], columns: Mapping[str, int], data: Sequence[int], doubted: Collection[int]
    ) -> None:
        self._rows, self._columns, self._data, self._doubted = rows, columns, data, doubted

    def counted(self, first: int, totals: Sequence[int]) -> bool | None:
        """Whether a total, given in their order, has the doubted row `first` in it; None where none tells."""
        begun, at = 0, bisect_left(self._data, first)
        for total in totals:
            behind = bisect_left(self._data, total)
            end = len(self._data) if total_of_all(row_text(self._rows[total])) else behind
            for start in dict.fromkeys((begun, 0)):
                if start <= at < end and (told := self._tells(total, start, end)) is not None:
                    return told
            begun = behind
        return None

    def _tells(self, total: int, first: int, last: int) -> bool | None:
        """Whether it has the doubted among some goods in it; None where it agrees with both sums or with none."""
        everything, sure = (before[:, last] - before[:, first] for before in self._before)
        if not sure[0]:  # it may sum what is not there
            return None
        agree = [self._agrees(total, numbers.tolist()) for numbers in (everything, sure)]
        return agree[0] if agree[0] != agree[1] else None

    def _agrees(self, total: int, numbers: Sequence[float]) -> bool:
        """The total's units are these rows', else its money where it counts no units."""
        _, units, lines, *of_units = numbers
        if counted := self._number(total, "quantity"):
            return counted == units
        line, each = self._number(total, "tag_line"), self._number(total, "tag_each")
        sums = (lines, *of_units) if line else of_units
        return (line or each) > 0 and any(abs((line or each) - one) < _CLOSE for one in sums)

    @cached_property
    def _before(self) -> tuple[FloatArray, FloatArray]:
        """Sums of the rows before each, of all and of the sure ones: rows, units, lines, tags of one, and of units."""
        units = np.array([self._number(index, "quantity") or 1.0 for index in self._data])
        tags = ([self._number(index, name) for index in self._data] for name in ("tag_line", "tag_each"))
        line, each = map(np.array, tags)
        numbers = np.stack([np.ones(len(units)), units, line, each, units * each])
        sure = np.array([index not in self._doubted for index in self._data], dtype=bool)
        start = np.zeros((len(numbers), 1))
        everything, some = (np.cumsum(one, axis=1) for one in (numbers, np.where(sure, numbers, 0.0)))
        return np.concatenate((start, everything), axis=1), np.concatenate((start, some), axis=1)

    def _number(self, index: int, column: str) -> float:
        """What a row says in a column, 0 for nothing."""
        row, place = self._rows[index], self._columns.get(column)
        return (quick_number(row[place]) or 0.0) if place is not None and place < len(row) else 0.0


def goods_called_totals(
    rows: Sequence[Sequence[Cell]], data: Sequence[int], totals: Sequence[int], columns: Mapping[str, int], name: int
) -> list[int]:
    """Those of the totals that another total counts among its goods: "Subtotal slimming brief", 2, 40.00.

    Examples
    --------
    >>> rows = [["Mug", 2], ["Subtotal brief", 3], ["Jug", 1], ["Subtotal", 2], ["Total", 6]]
    >>> goods_called_totals(rows, [0, 2], [1, 3, 4], {"quantity": 1}, 0)
    [1]
    """
    loose = [index for index in totals if may_be_goods(rows[index][name] if name < len(rows[index]) else "")]
    if not 0 < len(loose) <= _MOST_LOOSE:
        return []
    others = [index for index in totals if index not in loose]
    sums = Sums(rows, columns, sorted([*data, *loose]), loose)
    return [index for index in loose if sums.counted(index, others)]
