"""Which rows of a table are equal in every cell, also in columns that nobody reads?"""

from collections.abc import Sequence

import numpy as np

from models.intake.grid import Cell


def equal_rows(rows: Sequence[Sequence[Cell]]) -> tuple[tuple[int, int], ...]:
    """Places of each row that equals an earlier one, with the place of the first of them.

    Parameters
    ----------
    rows : sequence of sequences of Cell
        The data rows.

    Examples
    --------
    >>> equal_rows([["Mug", 8], ["Jug", 9], ["Mug", 8], ["Mug", 8]])
    ((2, 0), (3, 0))
    """
    marks = np.fromiter((hash(tuple(row)) for row in rows), dtype=np.int64, count=len(rows))
    _, whose, times = np.unique(marks, return_inverse=True, return_counts=True)
    first: dict[tuple[Cell, ...], int] = {}
    pairs = []
    for place in np.flatnonzero(times[whose] > 1).tolist():
        row = tuple(rows[place])
        if row in first:
            pairs.append((place, first[row]))
        else:
            first[row] = place
    return tuple(pairs)
