"""How many units will sell by when, in closed form?  Over what each product has alone and what its kind shares.

Given the factor f that a product's kind shares, its rate is Gamma(a + d, (a + H f) / (mu f)); f is log-normal with mean
1 and is summed over a few points.  One gamma of the same mean and spread would say that goods sell later than they do:
a factor that many goods share is skewed upwards, a wide gamma piles up at no sales at all.
"""

from collections.abc import Iterator

import numpy as np
from scipy.special import betainc, betaincc, betaincinv

from models.estimate.tempo_lot import POINTS, LotTempo, product_window
from models.values.arrays import FloatArray


def share_sold(lot: LotTempo, window_days: FloatArray) -> FloatArray:
    """Expected share of each line's quantity sold within a window.

    Parameters
    ----------
    lot : LotTempo
        Pace of the lot.
    window_days : ndarray of shape (n_lines,)
        Days from the start of listing; a product's lines are listed together, so its longest counts.

    Returns
    -------
    ndarray of shape (n_lines,)
        0 to 1; the same for all lines of a product.

    Examples
    --------
    One unit each of two products at a rate Gamma(1.5, 90 days), and ten units of a third: 90 days.

    >>> from models.estimate.tempo_lot import gamma_pace
    >>> lot = gamma_pace(np.array([0, 1, 2]), np.array([1.0, 1.0, 10.0]), np.zeros(3), 1.5, 90.0)
    >>> share_sold(lot, np.full(3, 90.0)).round(3)
    array([0.646, 0.646, 0.15 ])
    """
    days = product_window(lot, window_days)
    at_most = np.where(lot.apart, 1.0, lot.stock + lot.units)
    stock = np.where(lot.apart, 0.0, lot.stock)
    sold = np.zeros(len(days))
    for factor, weight in _factors(lot):
        shape, rate = lot.gamma_at(factor)
        sold += weight * (expected_sales(at_most, shape, rate, days) - expected_sales(stock, shape, rate, days))
    share = sold / np.where(lot.apart, 1.0, lot.units)
    return np.clip(share, 0.0, 1.0)[lot.product]


def _factors(lot: LotTempo) -> Iterator[tuple[FloatArray, float]]:
    """Points of the shared factor of each product, and what each weighs."""
    sd2 = (lot.shared_sd**2).sum(axis=1)
    for at, weight in zip(*(POINTS if sd2.any() else (np.zeros(1), np.ones(1))), strict=True):
        yield np.exp(np.sqrt(sd2) * at - sd2 / 2.0), float(weight)


def expected_sales(k: FloatArray, shape: FloatArray, rate: FloatArray, days: FloatArray) -> FloatArray:
    """E min(N, k) for N sales possible within `days` at a rate that is Gamma(shape, rate).

    Parameters
    ----------
    k : ndarray of shape (n,)
        Whole units in stock.
    shape, rate : ndarray of shape (n,)
        Of the gamma [1, days].
    days : ndarray of shape (n,)
        Not below zero.

    Returns
    -------
    ndarray of shape (n,)
        Units.

    Notes
    -----
    (a t / b) P_{a+1}(N <= k - 2) + k P_a(N >= k), with P_a(N >= k) = I_{t/(b+t)}(k, a).

    Examples
    --------
    With a huge shape the rate is certain and N is Poisson; with mean 3, E min(5, N) is 2.865379.

    >>> expected_sales(np.array([5.0]), np.array([1e9]), np.array([1e9]), np.array([3.0])).round(5)
    array([2.86538])
    """
    x = days / (rate + days)
    whole = np.maximum(k, 1.0)
    below = np.where(whole > 1, betaincc(np.maximum(whole - 1.0, 1.0), shape + 1.0, x), 0.0)
    return np.asarray(np.where(k < 1, 0.0, shape * days / rate * below + whole * betainc(whole, shape, x)))


def days_to_sell(lot: LotTempo, limit_days: float) -> FloatArray:
    """Days from listing until half of a line's units have sold, with an even chance.

    Parameters
    ----------
    lot : LotTempo
        Pace of the lot.
    limit_days : float
        Later counts as never.

    Returns
    -------
    ndarray of shape (n_lines,)
        [days], NaN where that is later than `limit_days`.

    Notes
    -----
    The k-th sale comes by t with chance I_{t/(t+b)}(k, a); k = own stock + half of the product's units, rounded up.
    The factor that the kind shares is taken at its middle: it stretches the days, and ln days have a near even spread.

    Examples
    --------
    >>> from models.estimate.tempo_lot import gamma_pace
    >>> lot = gamma_pace(np.array([0, 1]), np.array([1.0, 400.0]), np.zeros(2), 1.5, 90.0)
    >>> days_to_sell(lot, 1820.0).round(1)
    array([52.9,  nan])
    """
    kth = np.where(lot.apart, 1.0, lot.stock + np.ceil(lot.units / 2.0))
    shape, rate = lot.gamma_at(np.exp(-(lot.shared_sd**2).sum(axis=1) / 2.0))
    x = betaincinv(kth, shape, 0.5)
    with np.errstate(divide="ignore"):
        days = np.where(x < 1.0, rate * x / (1.0 - x), np.inf)
    return np.where(days <= limit_days, days, np.nan)[lot.product]
