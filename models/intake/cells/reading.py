"""How is a column read?  Every distinct cell once; a doubt is a reason in a seller's words, beside the value."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Generic, NamedTuple, TypeVar

from models.intake.grid import Cell
from models.intake.many import distinct

T = TypeVar("T")

BLANK = "left blank"
ASIDE = "set aside"
AS_WRITTEN = "kept as written"


class Reading(NamedTuple, Generic[T]):
    """One cell's value; `doubt` "" where nothing is to be told, `done` says what was made of it.

    A tuple and no dataclass, since a file has one for each different cell: they are made in a third of the time.
    """

    value: T
    doubt: str = ""
    done: str = ""


class Readings(Generic[T]):
    """One reading a cell, kept as the values of all and the doubts of few: a long column then costs little.

    Parameters
    ----------
    cells : sequence of Cell
        The column.
    values : list
        One a cell.
    doubts : mapping
        {cell: its reading}, of those with something to be told.

    Examples
    --------
    >>> readings = Readings(["a", "b", "a"], [1, 2, 1], {"b": Reading(2, "odd", AS_WRITTEN)})
    >>> readings.values, readings.doubtful(), readings[1].doubt
    ([1, 2, 1], [1], 'odd')
    """

    def __init__(self, cells: Sequence[Cell], values: list[T], doubts: Mapping[Cell, Reading[T]]) -> None:
        self.values = values
        self._cells, self._doubts = cells, doubts

    def __len__(self) -> int:
        return len(self._cells)

    def __getitem__(self, index: int) -> Reading[T]:
        return self._doubts.get(self._cells[index]) or Reading(self.values[index])

    def __iter__(self) -> Iterator[Reading[T]]:
        return (self[index] for index in range(len(self)))

    def told(self, readings: Mapping[Cell, Reading[T]]) -> "Readings[T]":
        """The same but for some cells, of which it is known from elsewhere how they read."""
        others = {cell: reading for cell, reading in self._doubts.items() if cell not in readings}
        doubts = others | {cell: reading for cell, reading in readings.items() if reading.doubt}
        pairs = zip(self._cells, self.values, strict=True)
        values = [readings[cell].value if cell in readings else value for cell, value in pairs]
        return Readings(self._cells, values, doubts)

    def doubtful(self) -> list[int]:
        """Places of the cells with something to be told."""
        return [index for index, cell in enumerate(self._cells) if cell in self._doubts] if self._doubts else []


def read_column(cells: Sequence[Cell], read: Callable[[Cell], Reading[T]]) -> Readings[T]:
    """The reading of each cell; equal cells share one.

    Examples
    --------
    >>> read_column(["a", "b", "a"], lambda cell: Reading(str(cell).upper())).values
    ['A', 'B', 'A']
    """
    known = {cell: read(cell) for cell in distinct(cells)}
    values = {cell: reading.value for cell, reading in known.items()}
    doubts = {cell: reading for cell, reading in known.items() if reading.doubt}
    return Readings(cells, list(map(values.__getitem__, cells)), doubts)
