"""How far can looked-up prices be off, and how much of a surprise is no news of all prices?"""

from typing import Final

import numpy as np

from models.estimate.lot_joint import LotPrices
from models.values.arrays import BoolArray, FloatArray, IntArray

# What others got is not what this shop gets: other photos, other buyers, an eye for the dearer sales.  Mean 0; of each
# line apart, and of all that one seller looks up alike, so that many of them cannot settle the level of all prices.
# Common practice, no source.
GAP_SD = 0.15  # log units
SHARED_GAP_SD = 0.10  # log units
# What lies beyond this many standard deviations is the looked-up goods' own, no news of all prices: the error of who
# finds a third of what the shop itself got for them, the item's own level where it never sold any.  Common practice,
# no source.
MOST_SURPRISE: Final = 2.0


def surplus_var(now: LotPrices, at: IntArray, seen: FloatArray, count: FloatArray) -> FloatArray:
    """The error that looked-up prices must have, beyond the usual gaps, to be a surprise that can happen.

    Parameters
    ----------
    now : LotPrices
        As of today, before anything looked up taught it.
    at : ndarray of shape (n,)
        Positions of the lines.
    seen : ndarray of shape (n,)
        Mean ln of each line's looked-up prices [ln minor units].
    count : ndarray of shape (n,)
        How many there are.

    Returns
    -------
    ndarray of shape (n,)
        Log variance; 0 where the surprise is at most `MOST_SURPRISE` standard deviations or nothing is known.

    Examples
    --------
    >>> from models.estimate.lot_prices import price_lot
    >>> from models.values.lines import Lines
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book, match
    >>> from models.values.sales import Sales
    >>> lines, sales = Lines.blank(1), Sales.blank(0)
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> model = fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")
    >>> lot = price_lot(lines, match(book, lines.description, lines.sku, lines.gtin), model, np.zeros(1))
    >>> at, usual = np.arange(1), float(lot.mu[0])
    >>> [float(surplus_var(lot, at, np.array([usual + far]), np.ones(1))[0]) > 0 for far in (0.5, 5.0)]
    [False, True]
    """
    usual = now.log_var[at] + now.noise_var[at] / count + GAP_SD**2 + SHARED_GAP_SD**2
    surprise = np.where(np.isfinite(now.mu[at]), seen - now.mu[at], 0.0)
    return np.asarray(np.maximum(np.square(surprise / MOST_SURPRISE) - usual, 0.0), dtype=np.float64)


def own_item(now: LotPrices, at: IntArray) -> BoolArray:
    """True where the shop sold the item itself, or there is no item that could be dearer than it seems.

    Examples
    --------
    >>> from models.estimate.lot_prices import price_lot
    >>> from models.values.lines import Lines
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book, match
    >>> from models.values.sales import Sales
    >>> lines, sales = Lines.blank(1), Sales.blank(0)
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> model = fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")
    >>> lot = price_lot(lines, match(book, lines.description, lines.sku, lines.gtin), model, np.zeros(1))
    >>> own_item(lot, np.arange(1)).tolist(), (item_cells(lot, np.arange(1)) >= 0).tolist()
    ([False], [True])
    """
    return np.asarray((now.basis[at] == "own_item") | (item_cells(now, at) < 0), dtype=np.bool_)


def item_cells(lot: LotPrices, at: IntArray) -> IntArray:
    """The cell of each line's item, -1 where the line is many different goods."""
    rows, found = lot.cells.loading.take(at), np.full(len(at), -1, dtype=np.int64)
    kind = lot.cells.kind[rows.column]
    for name in ("product", "item"):  # without a history there are no items, only products
        found[rows.row[kind == name]] = rows.column[kind == name]
    return found
