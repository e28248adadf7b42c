"""How is a column read?  Every distinct cell once; a doubt is a reason in a seller's words, beside the value."""

from collections.abc import Callable, Sequence
from typing import Generic, NamedTuple, TypeVar

from models.intake.grid import Cell

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


def read_column(cells: Sequence[Cell], read: Callable[[Cell], Reading[T]]) -> list[Reading[T]]:
    """The reading of each cell; equal cells share one.

    Examples
    --------
    >>> [reading.value for reading in read_column(["a", "b", "a"], lambda cell: Reading(str(cell).upper()))]
    ['A', 'B', 'A']
    """
    known = {cell: read(cell) for cell in set(cells)}
    return list(map(known.__getitem__, cells))


def values_of(readings: Sequence[Reading[T]]) -> list[T]:
    """The values alone.

    Examples
    --------
    >>> values_of([Reading(1), Reading(2)])
    [1, 2]
    """
    return [value for value, _, _ in readings]
