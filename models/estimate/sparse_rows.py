"""How is a row with few entries kept?  As three plain arrays, so that a model needs no library to be read.

Row i has the entries start[i] to start[i + 1] of `column` and `value`; columns of a row are distinct and ascending.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from models.values.arrays import FloatArray, IntArray

_PAIRS = 500_000  # pairs of entries looked at together


@dataclass(frozen=True)
class SparseRows:
    """A matrix of shape (n_rows, width)."""

    start: IntArray  # (n_rows + 1,)
    column: IntArray  # (n_entries,)
    value: FloatArray  # (n_entries,)
    width: int

    def __len__(self) -> int:
        return len(self.start) - 1

    @property
    def row(self) -> IntArray:
        """Row of each entry, shape (n_entries,)."""
        return np.repeat(np.arange(len(self), dtype=np.int64), np.diff(self.start))

    def times(self, vector: FloatArray) -> FloatArray:
        """Product with a vector of shape (width,): shape (n_rows,).

        Examples
        --------
        >>> rows = from_entries(np.array([0, 1, 1]), np.array([0, 0, 1]), np.array([2.0, 1.0, 1.0]), (2, 2))
        >>> rows.times(np.array([1.0, 10.0])).tolist()
        [2.0, 11.0]
        """
        return np.bincount(self.row, self.value * vector[self.column], minlength=len(self)).astype(np.float64)

    def times_matrix(self, matrix: NDArray[Any]) -> NDArray[Any]:
        """Product with a matrix of shape (width, k): shape (n_rows, k), in the matrix's own precision."""
        found = np.zeros((len(self), matrix.shape[1]), dtype=matrix.dtype)
        value = self.value.astype(matrix.dtype)
        for at, (first, last) in enumerate(zip(self.start[:-1].tolist(), self.start[1:].tolist(), strict=True)):
            if last > first:  # row by row: the result of a row depends on nothing but the row
                np.dot(value[first:last], matrix[self.column[first:last]], out=found[at])
        return found

    def weighted_columns(self, weight: FloatArray) -> FloatArray:
        """Sum of the rows, each times its weight: shape (width,)."""
        total = np.bincount(self.column, self.value * weight[self.row], minlength=self.width)
        return total.astype(np.float64)

    def take(self, index: IntArray) -> "SparseRows":
        """The rows at `index`, in its order.

        Examples
        --------
        >>> rows = from_entries(np.array([0, 1]), np.array([1, 0]), np.array([2.0, 1.0]), (2, 2))
        >>> rows.take(np.array([1, 1])).times(np.array([1.0, 0.0])).tolist()
        [1.0, 1.0]
        """
        counts = np.diff(self.start)[index]
        start = np.concatenate([[0], np.cumsum(counts)]).astype(np.int64)
        entry = np.repeat(self.start[index] - start[:-1], counts) + np.arange(start[-1])
        return SparseRows(start, self.column[entry], self.value[entry], self.width)


def from_entries(row: IntArray, column: IntArray, value: FloatArray, shape: tuple[int, int]) -> SparseRows:
    """Rows from loose entries; entries of one place are added up.

    Examples
    --------
    >>> from_entries(np.array([0, 0]), np.array([1, 1]), np.array([1.0, 2.0]), (1, 2)).value.tolist()
    [3.0]
    """
    n_rows, width = shape
    place, inverse = np.unique(row.astype(np.int64) * max(width, 1) + column, return_inverse=True)
    total = np.bincount(inverse, value, minlength=len(place)).astype(np.float64)
    counts = np.bincount(place // max(width, 1), minlength=n_rows)
    start = np.concatenate([[0], np.cumsum(counts)]).astype(np.int64)
    return SparseRows(start, place % max(width, 1), total, width)


def stacked(parts: list[tuple[SparseRows, FloatArray]]) -> SparseRows:
    """Sum of matrices of one shape, each with a factor a row.

    Examples
    --------
    >>> one = from_entries(np.array([0]), np.array([0]), np.array([2.0]), (1, 2))
    >>> stacked([(one, np.ones(1)), (one, -np.ones(1))]).value.tolist()
    [0.0]
    """
    row = np.concatenate([rows.row for rows, _ in parts])
    column = np.concatenate([rows.column for rows, _ in parts])
    value = np.concatenate([rows.value * factor[rows.row] for rows, factor in parts])
    return from_entries(row, column, value, (len(parts[0][0]), parts[0][0].width))


def joined_rows(parts: list[SparseRows]) -> SparseRows:
    """The rows of several matrices of one width, one below the other.

    Examples
    --------
    >>> one = from_entries(np.array([0]), np.array([0]), np.array([2.0]), (1, 2))
    >>> joined_rows([one, one]).start.tolist()
    [0, 1, 2]
    """
    counts = np.concatenate([np.diff(part.start) for part in parts])
    column, value = np.concatenate([part.column for part in parts]), np.concatenate([part.value for part in parts])
    return SparseRows(np.concatenate([[0], np.cumsum(counts)]).astype(np.int64), column, value, parts[0].width)


def quadratic(rows: SparseRows, matrix: NDArray[Any]) -> FloatArray:
    """Each row x's quadratic form x' M x with a symmetric matrix of shape (width, width): shape (n_rows,).

    Examples
    --------
    >>> rows = from_entries(np.array([0, 0]), np.array([0, 1]), np.array([1.0, 2.0]), (1, 2))
    >>> quadratic(rows, np.array([[1.0, 0.5], [0.5, 1.0]])).tolist()
    [7.0]
    """
    count = np.diff(rows.start)
    pairs = np.concatenate([[0], np.cumsum(count**2)])
    found, flat, first = np.empty(len(rows)), matrix.ravel(), 0
    while first < len(rows):
        last = max(first + 1, int(np.searchsorted(pairs, pairs[first] + _PAIRS, side="right")) - 1)
        part = np.arange(rows.start[first], rows.start[last])
        row = np.repeat(np.arange(last - first), count[first:last])
        with_each = count[first:last][row]
        one = np.repeat(part, with_each)
        begun = np.cumsum(with_each) - with_each
        other = np.arange(len(one)) - np.repeat(begun - rows.start[first:last][row], with_each)
        value = rows.value[one] * rows.value[other] * flat[rows.column[one] * rows.width + rows.column[other]]
        found[first:last] = np.bincount(np.repeat(row, with_each), value, minlength=last - first)
        first = last
    return found
