"""One product, several tags in one lot: which of them is its tag?  A stray point moves the tag of one line alone."""

from typing import Final

import numpy as np

from models.estimate.tags import median_by
from models.values.arrays import BoolArray, FloatArray, IntArray

# Tags of one product that differ by more contradict each other; lists that say "ladies' top" for many things differ by
# less.  Common practice, no source.
APART: Final = float(np.log(5.0))
_FEWEST_OF_KIND = 5
_BEYOND_KIND = float(np.log(20.0))


def agreed_tags(product: IntArray, tag: FloatArray, expected: FloatArray) -> FloatArray:
    """The tag of each product as most of its lines tell it.

    Parameters
    ----------
    product : ndarray of shape (n_lines,)
        Each line's product, 0 to n_products - 1.
    tag : ndarray of shape (n_lines,)
        Ln tag [ln minor units], finite.
    expected : ndarray of shape (n_products,)
        Ln tag that such goods have; NaN where nothing is expected.

    Returns
    -------
    ndarray of shape (n_products,)
        Median ln tag where a product's lines agree within a factor of five.  Else the median of those near the tag that
        most of them are near, of two as common the one nearer to what is expected, or the lower.  NaN without a tag.

    Examples
    --------
    >>> agreed_tags(np.zeros(2, dtype=int), np.log([12.0, 1200.0]), np.log([20.0])).round(2).tolist()
    [2.48]
    >>> agreed_tags(np.zeros(3, dtype=int), np.log([12.0, 1200.0, 1100.0]), np.log([20.0])).round(2).tolist()
    [7.05]
    """
    n_products = len(expected)
    found = median_by(product, tag, n_products)
    for at in np.unique(product[np.abs(tag - found[product]) > APART / 2]).tolist():
        some = np.sort(tag[product == at])
        if some[-1] - some[0] > APART:
            found[at] = _most_told(some, float(expected[at]))
    return found


def beyond_kind(kind: IntArray, tag: FloatArray) -> BoolArray:
    """True for lines whose tag is absurd beside those of their kind in the same lot.

    Parameters
    ----------
    kind : ndarray of shape (n_lines,)
        Each line's kind of goods, 0 upwards.
    tag : ndarray of shape (n_lines,)
        Ln tag [ln minor units], NaN none.

    Returns
    -------
    ndarray of shape (n_lines,)
        More than 20 times the median of a kind that has at least five tags, or less than a twentieth of it.  Common
        practice, no source.

    Examples
    --------
    >>> beyond_kind(np.zeros(6, dtype=int), np.log([30, 40, 50, 3332, 60, np.nan])).tolist()
    [False, False, False, True, False, False]
    """
    given = ~np.isnan(tag)
    count = np.bincount(kind[given], minlength=int(kind.max(initial=0)) + 1)
    usual = median_by(kind[given], tag[given], len(count))[kind]
    return np.asarray((count[kind] >= _FEWEST_OF_KIND) & (np.abs(tag - usual) > _BEYOND_KIND), dtype=np.bool_)


def _most_told(some: FloatArray, expected: float) -> float:
    """`some` rises."""
    near = np.abs(some[:, None] - some) <= APART
    away = np.nan_to_num(np.abs(some - expected))
    best = int(np.lexsort((some, away, -near.sum(axis=1)))[0])
    return float(np.median(some[near[best]]))


def strays(product: IntArray, tag: FloatArray, agreed: FloatArray) -> BoolArray:
    """True for lines whose tag is another than their product's; NaN is none.

    Examples
    --------
    >>> strays(np.zeros(3, dtype=int), np.log([12.0, 1200.0, np.nan]), np.log([12.0])).tolist()
    [False, True, False]
    """
    return np.asarray(np.abs(tag - agreed[product]) > APART, dtype=np.bool_)
