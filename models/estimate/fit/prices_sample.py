"""From which rows are variances learned where there are very many?  Whole products, drawn from a fixed stream."""

import numpy as np

from models.values.arrays import IntArray
from models.values.streams import stream

VARIANCE_ROWS = 6000  # more rows cost time and move no variance noticeably


def variance_rows(group: IntArray) -> IntArray | None:
    """Rows of whole groups, about VARIANCE_ROWS of them; None where all rows are few enough.

    Examples
    --------
    >>> variance_rows(np.zeros(10, dtype=np.int64)) is None
    True
    """
    if len(group) <= VARIANCE_ROWS:
        return None
    names, code = np.unique(group, return_inverse=True)
    place = stream(0, "variance rows").permutation(len(names))
    order = np.argsort(place[code], kind="stable")
    last = place[code[order[VARIANCE_ROWS]]]
    return np.sort(order[place[code[order]] < max(last, 1)])
