"""Array types every numeric room uses; the comment of each field states shape and unit."""

import datetime as dt
from typing import Any

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]
CodeArray = NDArray[np.int8]
BoolArray = NDArray[np.bool_]
TextArray = NDArray[np.object_]  # of str, "" for blank
DayArray = NDArray[np.datetime64]  # [D], NaT for blank
Arrays = dict[str, NDArray[Any]]


def texts(values: list[str]) -> TextArray:
    """An object array of strings, also when it is empty.

    Examples
    --------
    >>> texts(["a", ""]).shape
    (2,)
    """
    made = np.empty(len(values), dtype=object)
    made[:] = values
    return made


def day(date: dt.date) -> np.datetime64:
    """A calendar date as numpy's day.

    Examples
    --------
    >>> str(day(dt.date(2026, 7, 1)))
    '2026-07-01'
    """
    return np.datetime64(date, "D")
