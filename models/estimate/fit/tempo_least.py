"""How fast does a product sell at least, where the history does not show what did not sell?

It was on offer on no more days than have passed since its first listing, so its sales over those days are too low a
rate, never too high a one.
"""

from dataclasses import dataclass

import numpy as np

from models.estimate.fit.tempo_exposure import SHORTEST, known_sold
from models.estimate.tempo_levels import counted
from models.values.arrays import FloatArray, IntArray
from models.values.sales import Sales


@dataclass(frozen=True)
class OwnPace:
    """Arrays of shape (n_products,)."""

    sales: FloatArray  # units sold after the first day of sale; that day is why the product is in the file at all
    days: FloatArray  # since its first listing, or its first sale where no listing is dated; 0 where never sold


def own_pace(sales: Sales, product: IntArray, n_products: int, known_until: np.datetime64) -> OwnPace:
    """Dated sales of each product and the days they took at most.

    Parameters
    ----------
    sales : Sales
        The history.
    product : ndarray of shape (n_rows,)
        Product of each row, 0 .. n_products - 1.
    n_products : int
        Number of products.
    known_until : datetime64
        End of what is known.

    Returns
    -------
    OwnPace
        Sales without a day count for nothing.
    """
    rows = np.flatnonzero(known_sold(sales, known_until) & ~np.isnat(sales.sold_on))
    of, units = product[rows], sales.quantity[rows].astype(float)
    sold_on = sales.sold_on[rows].astype("datetime64[D]").astype(np.int64).astype(float)
    listed = sales.first_listed[rows]
    start = np.where(np.isnat(listed), np.inf, listed.astype(np.int64).astype(float))
    first, begin = np.full(n_products, np.inf), np.full(n_products, np.inf)
    np.minimum.at(first, of, sold_on)
    np.minimum.at(begin, of, np.minimum(start, sold_on))
    until = float(known_until.astype("datetime64[D]").astype(np.int64))
    later = counted(of, np.where(sold_on > first[of], units, 0.0), n_products)
    return OwnPace(later, np.where(np.isfinite(begin), np.maximum(until - begin, SHORTEST), 0.0))
