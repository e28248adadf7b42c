"""Which goods sell at less even prices?  Noise in units of the common one, by condition, kind and lack of tag."""

import numpy as np

from models.values.arrays import FloatArray, IntArray

_PRIOR_ROWS = 20.0
_WINSOR = 16.0


def row_factors(codes: tuple[IntArray, ...], tables: tuple[FloatArray, ...], base: FloatArray) -> FloatArray:
    """Each row's factor: its base times one entry of each table, shape (n_rows,).

    Examples
    --------
    >>> row_factors((np.array([0, 1]),), (np.array([1.0, 2.0]),), np.ones(2)).tolist()
    [1.0, 2.0]
    """
    found = base.copy()
    for code, table in zip(codes, tables, strict=True):
        found *= table[code]
    return found


def learned_factors(
    own: FloatArray, shown: FloatArray, codes: tuple[IntArray, ...], tables: tuple[FloatArray, ...], base: FloatArray
) -> tuple[FloatArray, ...]:
    """Tables after one more round: (sum of squares + 20) / (n + 20), squares winsorised at 16 times their mean.

    n counts each row by what its residual can still show of its noise: a product's only sale shows little, since the
    product's own effect has taken most of it.

    Parameters
    ----------
    own : ndarray of shape (n_rows,)
        Residuals after all effects [log units].
    shown : ndarray of shape (n_rows,)
        Share of each row's noise variance that its residual shows, 0..1.
    codes, tables : tuples of ndarray
        Level of each row and the factors in force, one pair a grouping.
    base : ndarray of shape (n_rows,)
        Factor of each row that is not learned.

    Examples
    --------
    >>> own = np.array([0.1] * 40 + [0.3] * 40)
    >>> (table,) = learned_factors(own, np.ones(80), (np.repeat([0, 1], 40),), (np.ones(2),), np.ones(80))
    >>> table.round(2).tolist()
    [0.47, 1.53]
    """
    found = list(tables)
    for number, code in enumerate(codes):
        square = own**2 / row_factors(codes, tuple(found), base)
        square /= max(float(square.sum() / shown.sum()), 1e-300)
        square = np.minimum(square, _WINSOR * shown) * found[number][code]
        size = len(found[number])
        total = np.bincount(code, square, minlength=size)
        found[number] = (total + _PRIOR_ROWS) / (np.bincount(code, shown, minlength=size) + _PRIOR_ROWS)
    return tuple(found)
