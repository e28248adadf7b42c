"""What do a lot's tags say of one another?  Goods of one brand share what is not known of the brand's level.

A tag ten times too high stands out beside honest tags of the same brand, even where the brand was never sold.
"""

from dataclasses import dataclass

import numpy as np

from models.estimate.blocks import Facts, coded, level_columns
from models.estimate.posterior import Posterior
from models.estimate.tags import GOOD_SD, good_probability, near_probability
from models.values.arrays import FloatArray, IntArray

_ROUNDS = 3  # a wrong tag first has to lose its say among the others


@dataclass(frozen=True)
class Kin:
    """Which products share a brand, and how much of their expectation's variance that is; arrays (n_products,)."""

    brand: IntArray  # number of each product's brand; nameless goods are each their own
    shared_var: FloatArray

    def take(self, index: IntArray) -> "Kin":
        """The products at `index`."""
        return Kin(self.brand[index], self.shared_var[index])


def kin_of(posterior: Posterior, facts: Facts) -> Kin:
    """Brands of products and the variance that is left of each brand's level.

    Examples
    --------
    >>> from models.estimate.price_model import no_posterior
    >>> from models.values.arrays import texts
    >>> none = np.zeros(2)
    >>> facts = Facts(*[texts(["a", "a"])] * 5, *[none] * 5, texts(["", ""]))
    >>> kin = kin_of(no_posterior(), facts)
    >>> kin.brand.tolist(), kin.shared_var.tolist()
    ([0, 0], [0.0, 0.0])
    """
    code, names = coded(facts.brand)
    column = level_columns(posterior.layout, "brand", names)
    of_brand = np.full(len(names), posterior.block_prior("brand"))
    seen = np.flatnonzero(column >= 0)
    of_brand[seen] = np.square(posterior.columns[column[seen]].astype(np.float64)).sum(axis=1)
    nameless = facts.brand == ""
    brand = np.where(nameless, len(names) + np.arange(len(code)), code)
    return Kin(brand.astype(np.int64), np.where(nameless, 0.0, of_brand[code]))


def told_by_kin(apart: FloatArray, var: FloatArray, kin: Kin, wrong_share: float) -> tuple[FloatArray, FloatArray]:
    """What the other tags of its brand add to each product's expectation, and the variance that is then left.

    Parameters
    ----------
    apart : ndarray of shape (n_products, n_grid)
        Ln tag less what is expected of it, at each factor the lot's tags may carry.
    var : ndarray of shape (n_products,)
        Variance of the expectation.
    wrong_share : float
        Share of wrong tags, 0..1; a tag speaks for others by P that it is good and not far off its brand.

    Returns
    -------
    tuple of ndarray of shape (n_products, n_grid)

    Examples
    --------
    >>> kin = Kin(np.zeros(3, dtype=np.int64), np.full(3, 0.2))
    >>> moved, left = told_by_kin(np.array([[0.5], [0.5], [2.8]]), np.full(3, 0.4), kin, 0.05)
    >>> moved.round(2).ravel().tolist(), left.round(2).ravel().tolist()
    ([0.25, 0.25, 0.33], [0.3, 0.3, 0.27])
    """
    _, brand = np.unique(kin.brand, return_inverse=True)
    shared = np.maximum(kin.shared_var, 1e-9)[:, None]
    own = np.maximum(var[:, None] - shared, 0.0)
    heard = own + GOOD_SD**2
    moved, left = np.zeros_like(apart), np.broadcast_to(var[:, None], apart.shape)
    for _ in range(_ROUNDS):
        wide = left + GOOD_SD**2
        good = good_probability(apart, moved, wide, wrong_share)
        say = good * near_probability(apart - moved, wide) / heard
        others = _others(brand, say)
        left = 1 / (1 / shared + np.maximum(others, 0.0))
        moved = _others(brand, say * apart) * left
        left = own + left
    return moved, left


def _others(brand: IntArray, value: FloatArray) -> FloatArray:
    """Sum over the other products of a brand, shape of `value`."""
    total = np.zeros((int(brand.max(initial=-1)) + 1, value.shape[1]))
    np.add.at(total, brand, value)
    return np.asarray(total[brand] - value, dtype=np.float64)
