"""How many units sell in each draw, and when?  One rate a product and draw; never a fresh one a unit, row or pallet.

Every stream is keyed by the product's name or the shared level's, so neither the order of the lines nor the slicing
changes a draw, as long as a slice holds whole products (`product_slices`).
"""

from dataclasses import dataclass

import numpy as np

from models.estimate.products import Matched
from models.estimate.tempo_lot import SHARED, LotTempo
from models.values.arrays import FloatArray, IntArray
from models.values.streams import DRAWS, standard_normals, stream

MOST_EXPECTED = 1e9  # sales; numpy's Poisson takes no more than about 9e18


@dataclass(frozen=True)
class SaleDraws:
    """Sales of lines within the window, arrays of shape (n, draws)."""

    units: FloatArray  # sold; a product's sales are shared over its lines, so fractions occur
    mean_day: FloatArray  # mean day of those sales after the start of listing [days]; the window's end where none sold
    days: FloatArray  # that those sales are spread over evenly, around their mean day; 0 for a single one
    demand: FloatArray  # sales possible beyond own stock, the line's share of them; `units` before stock runs out


def product_slices(matched: Matched, size: int) -> list[IntArray]:
    """Line indices in slices of about `size` lines that keep each product's lines together.

    Parameters
    ----------
    matched : Matched
        Product of each line.
    size : int
        Most lines a slice, unless one product alone has more; at least 1.

    Returns
    -------
    list of ndarray
        Every line once.

    Raises
    ------
    ValueError
        If size is below 1.
    """
    if size < 1:
        raise ValueError("a slice holds at least one line")
    order = np.argsort(matched.product, kind="stable")
    starts = np.flatnonzero(np.diff(matched.product[order], prepend=-1)).tolist()
    cuts, begun = [], 0
    for start, end in zip(starts, [*starts[1:], len(order)], strict=True):
        if end - begun > size and start > begun:
            cuts.append(start)
            begun = start
    return [part for part in np.split(order, cuts) if len(part)]


def draw_rates(lot: LotTempo, products: IntArray, seed: int, draws: int = DRAWS) -> FloatArray:
    """Sales a day of each product and draw.

    Parameters
    ----------
    lot : LotTempo
        Pace of the lot.
    products : ndarray of shape (n_products,)
        Which, as `LotTempo.product` numbers them.
    seed : int
        The evaluation's seed.

    Returns
    -------
    ndarray of shape (n_products, draws)
        [1/day]
    """
    factors = _Factors(lot, seed, draws)
    return np.array([_rate(lot, p, factors, _stream(lot, p, seed)) for p in products.tolist()]).reshape(-1, draws)


def sale_draws(lot: LotTempo, index: IntArray, saleable: FloatArray, window_days: FloatArray, seed: int) -> SaleDraws:
    """Units sold within the window and their mean day, own stock first.

    Parameters
    ----------
    lot : LotTempo
        Pace of the lot.
    index : ndarray of shape (n,)
        Lines of this slice: all lines of each of their products.
    saleable : ndarray of shape (n, draws)
        Whole units on sale.
    window_days : ndarray of shape (n,)
        Days from the start of listing; the longest of a product's lines counts.
    seed : int
        The evaluation's seed.

    Returns
    -------
    SaleDraws

    Notes
    -----
    N sales possible in the window fall on days spread evenly over it, so the k-th comes at t k/(N + 1) on average; the
    lot's are the (s + 1)-th to the (s + sold)-th, own stock s first.
    """
    draws = saleable.shape[1]
    units, day, spread, demand = (np.zeros(saleable.shape) for _ in range(4))
    factors = _Factors(lot, seed, draws)
    order = np.argsort(lot.product[index], kind="stable")
    of = lot.product[index][order]
    for rows in np.split(order, np.flatnonzero(np.diff(of)) + 1):
        if not len(rows):
            continue
        p, days = int(lot.product[index[rows[0]]]), max(float(window_days[rows].max()), 0.0)
        total = saleable[rows[0]] if len(rows) == 1 else saleable[rows].sum(axis=0)
        sales = (_sold_apart if lot.apart[p] else _sold)(lot, p, total, days, factors, seed)
        day[rows], spread[rows] = sales.mean_day, sales.days
        alone, each = len(rows) == 1, np.maximum(total, 1.0)
        units[rows] = sales.units if alone else saleable[rows] * (sales.units / each)
        demand[rows] = sales.demand if alone else saleable[rows] * (sales.demand / each)
    return SaleDraws(units, day, spread, demand)


def sold_draws(lot: LotTempo, index: IntArray, saleable: FloatArray, window_days: FloatArray, seed: int) -> FloatArray:
    """Units sold within the window, shape (n, draws); see `sale_draws`."""
    return sale_draws(lot, index, saleable, window_days, seed).units


def mean_sale_day(
    lot: LotTempo, index: IntArray, saleable: FloatArray, window_days: FloatArray, seed: int
) -> FloatArray:
    """Mean day of the sales after the start of listing [days], shape (n, draws); see `sale_draws`."""
    return sale_draws(lot, index, saleable, window_days, seed).mean_day


class _Factors:
    """Factor of ln mu's shared error, one a product and draw, mean 1; each name's normals are drawn once."""

    def __init__(self, lot: LotTempo, seed: int, draws: int) -> None:
        self._lot, self._seed, self._draws = lot, seed, draws
        self._normals: dict[tuple[str, str], FloatArray] = {}

    def of(self, p: int) -> FloatArray:
        ln = np.zeros(self._draws)
        named = zip(SHARED, self._lot.shared_key[p].tolist(), self._lot.shared_sd[p].tolist(), strict=True)
        for level, name, sd in named:
            if sd:
                ln += sd * self._normal(level, name) - sd**2 / 2.0
        return np.exp(ln)

    def _normal(self, level: str, name: str) -> FloatArray:
        if (level, name) not in self._normals:
            self._normals[level, name] = standard_normals(self._seed, f"tempo_{level}", name, self._draws)
        return self._normals[level, name]


def _stream(lot: LotTempo, p: int, seed: int) -> np.random.Generator:
    return stream(seed, "tempo", lot.name[p])


def _rate(lot: LotTempo, p: int, factors: _Factors, source: np.random.Generator) -> FloatArray:
    factor = factors.of(p)
    own = source.standard_gamma(lot.prior_shape[p] + lot.sales[p], len(factor))
    return np.asarray(own * (np.exp(lot.ln_mu[p]) * factor / (lot.prior_shape[p] + lot.expected[p] * factor)))


def _sold(lot: LotTempo, p: int, total: FloatArray, days: float, factors: _Factors, seed: int) -> SaleDraws:
    source = _stream(lot, p, seed)
    mean = np.minimum(_rate(lot, p, factors, source) * days, MOST_EXPECTED)
    possible = source.poisson(mean).astype(float)
    demand = np.maximum(possible - lot.stock[p], 0.0)
    sold = np.minimum(demand, total)
    gap = days / (possible + 1.0)
    day = gap * (lot.stock[p] + (sold + 1.0) / 2.0)
    return SaleDraws(sold, np.where(sold > 0, day, days), gap * sold * (sold > 1), demand)


def _sold_apart(lot: LotTempo, p: int, total: FloatArray, days: float, factors: _Factors, seed: int) -> SaleDraws:
    """Every unit with a rate of its own: P(T > t) = (1 + t/b)^-a."""
    a = lot.prior_shape[p] + (1e-6 if abs(lot.prior_shape[p] - 1.0) < 1e-6 else 0.0)  # the mean day has a pole at 1
    b = a / (np.exp(lot.ln_mu[p]) * factors.of(p))
    unsold = (1.0 + days / b) ** -a
    sold = _stream(lot, p, seed).binomial(total.astype(np.int64), 1.0 - unsold).astype(float)
    waiting = b / (a - 1.0) * (1.0 - (1.0 + days / b) ** (1.0 - a))  # E min(T, t)
    chance = np.maximum(1.0 - unsold, 1e-12)
    day = np.where(sold > 0, np.clip((waiting - days * unsold) / chance, 0.0, days), days)
    return SaleDraws(sold, day, 2.0 * np.minimum(day, days - day), sold)
