"""How far do products of one kind differ in pace?  A gamma frailty: its shape, and what own sales tell."""

import numpy as np
from scipy.special import gammaln

from models.values.arrays import FloatArray, IntArray

LN_SHAPE, LN_SHAPE_SD = np.log(1.5), 0.5  # prior of the shape
LN_SHAPES = np.linspace(np.log(0.2), np.log(20.0), 47)


def posterior_frailty(sold: FloatArray, expected: FloatArray, shape: float) -> FloatArray:
    """Mean frailty of each product.

    Parameters
    ----------
    sold, expected : ndarray of shape (n_products,)
        d units sold, where H were expected.
    shape : float
        a of the frailty; infinite: there is none.

    Returns
    -------
    ndarray of shape (n_products,)
        (a + d)/(a + H), 1 where there is none: Buehlmann's credibility with Z = H/(a + H).

    Examples
    --------
    >>> posterior_frailty(np.array([3.0, 0.0]), np.array([1.0, 1.0]), 1.0).tolist()
    [2.0, 0.5]
    """
    return np.ones(len(sold)) if np.isinf(shape) else (shape + sold) / (shape + expected)


def likeliest_shape(sold: FloatArray, expected: FloatArray) -> float:
    """Mode of the frailty's shape, the rates held.

    Parameters
    ----------
    sold, expected : ndarray of shape (n_products,)
        d units sold, where H were expected.

    Returns
    -------
    float
        Between .2 and 20; between the points of a grid by a parabola.

    Examples
    --------
    Products that sell just as expected differ by chance alone; the shape is then large.

    >>> alike, apart = np.full(200, 10.0), np.repeat([0.0, 20.0], 100)
    >>> likeliest_shape(alike, alike) > 10 > 1 > likeliest_shape(apart, alike)
    True
    """
    counts, products = np.unique(sold, return_counts=True)
    found = np.array([_marginal(a, sold, expected, counts, products) for a in np.exp(LN_SHAPES)])
    best = int(np.clip(np.argmax(found), 1, len(found) - 2))
    left, middle, right = found[best - 1 : best + 2]
    bend = left - 2.0 * middle + right
    move = 0.0 if bend >= 0 else float(np.clip(0.5 * (left - right) / bend, -1.0, 1.0))
    return float(np.exp(LN_SHAPES[best] + move * (LN_SHAPES[1] - LN_SHAPES[0])))


def _marginal(a: float, sold: FloatArray, expected: FloatArray, counts: FloatArray, products: IntArray) -> float:
    own = products @ (gammaln(a + counts) - gammaln(a) + a * np.log(a)) - (a + sold) @ np.log(a + expected)
    return float(own - 0.5 * ((np.log(a) - LN_SHAPE) / LN_SHAPE_SD) ** 2)
