"""How many units of each line will sell by when?  Depth belongs to the product, over lines, pallets and own stock.

Identical units sell as one Poisson stream of rate lam [1/day] while at least one is in stock, lam ~ Gamma(a, b).  With
N sales possible by day t, P(N >= k) = I_{t/(b+t)}(k, a), and own stock goes first: of q new units on top of s own ones,
E min(N, s + q) - E min(N, s) sell.  That is the lot's marginal value: own stock would have sold anyway.
An assorted line is many different goods: each of its units is a product of its own.
"""

from collections.abc import Callable

import numpy as np
from scipy.special import betainc, betaincc, betaincinv

from models.estimate.products import Matched
from models.estimate.tempo_declared import declared_pace, shared_out, tempo_cautions
from models.estimate.tempo_levels import brand_keys, category_keys, counted, price_level
from models.estimate.tempo_lot import EXACT, SHARED, LotTempo, in_season, product_window
from models.estimate.tempo_model import Kinds, TempoModel
from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray, texts
from models.values.lines import Lines
from models.values.settings import Selling

__all__ = ["LotTempo", "days_to_sell", "expected_sales", "in_season", "pace_lot", "share_sold"]


def pace_lot(
    lines: Lines, matched: Matched, model: TempoModel, selling_for: Callable[[str], Selling], price_each: FloatArray
) -> LotTempo:
    """Pace of every product of a lot.

    Parameters
    ----------
    lines : Lines
        The manifest.
    matched : Matched
        Product of each line; ids from len(model.sales) on were never sold here.
    model : TempoModel
        Fitted rates; if `declared`, the pace comes from the settings alone.
    selling_for : callable
        Selling settings of a category text: never_sells_share and days_to_sell.
    price_each : ndarray of shape (n_lines,)
        Expected unit price [minor units], NaN unknown.

    Returns
    -------
    LotTempo
    """
    ids, first, product = np.unique(
        matched.product * 2 + lines.assorted, return_index=True, return_inverse=True
    )  # assorted lines of a name stand apart
    apart = (ids % 2).astype(bool)
    quantity = lines.quantity.astype(float)
    units = counted(product, quantity, len(ids))
    known = ~apart & (ids // 2 < len(model.sales))
    own = np.where(known, ids // 2, 0)
    kinds = _kinds(lines, model, price_each)
    shape, ln_mu, shop_sd = _pace(kinds, model, [selling_for(name) for name in lines.category])
    key, sd = _shared(kinds, product, model, _unit_mean(shop_sd, quantity, product))
    return LotTempo(
        product=product, quantity=quantity, name=_names(matched.name[first], apart), units=units,
        stock=_of_known(model.stock, own, known), ln_mu=_unit_mean(ln_mu, quantity, product),
        prior_shape=_unit_mean(shape, quantity, product), sales=_of_known(model.sales, own, known),
        expected=_of_known(model.expected, own, known), shared_key=key, shared_sd=sd, apart=apart,
        month_effect=model.month_effect, cautions=tempo_cautions(model),
    )  # fmt: skip


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
    sold = expected_sales(at_most, lot.shape, lot.rate, days) - expected_sales(lot.stock, lot.shape, lot.rate, days)
    share = sold / np.where(lot.apart, 1.0, lot.units)
    return np.clip(share, 0.0, 1.0)[lot.product]


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

    Examples
    --------
    >>> from models.estimate.tempo_lot import gamma_pace
    >>> lot = gamma_pace(np.array([0, 1]), np.array([1.0, 400.0]), np.zeros(2), 1.5, 90.0)
    >>> days_to_sell(lot, 1820.0).round(1)
    array([52.9,  nan])
    """
    kth = np.where(lot.apart, 1.0, lot.stock + np.ceil(lot.units / 2.0))
    x = betaincinv(kth, lot.shape, 0.5)
    with np.errstate(divide="ignore"):
        days = np.where(x < 1.0, lot.rate * x / (1.0 - x), np.inf)
    return np.where(days <= limit_days, days, np.nan)[lot.product]


def _kinds(lines: Lines, model: TempoModel, price_each: FloatArray) -> Kinds:
    top, sub = category_keys(lines.category)
    fine, coarse = model.price_category.value_of(sub), model.price_category.value_of(top)
    level = price_level(price_each, np.where(np.isfinite(fine), fine, coarse))
    return Kinds(top, sub, brand_keys(lines.brand), lines.condition.astype(np.int64), level)


def _pace(kinds: Kinds, model: TempoModel, selling: list[Selling]) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Of each line: shape of the frailty, ln mu, and the sd of ln mu that the whole shop shares."""
    n = len(kinds.top)
    if not model.declared:
        shop_sd = float(min(1.0, model.base_information**-0.5))
        return np.full(n, model.shape), model.ln_rate(kinds), np.full(n, shop_sd)
    told = [(one.never_sells_share, one.days_to_sell) for one in selling]
    found = {pair: _declared(*pair) for pair in set(told)}
    shape, ln_mu, shared_sd = np.array([found[pair] for pair in told]).reshape(n, 3).T
    return shape, ln_mu, shared_sd


def _declared(never_sells_share: float, days_to_sell: float) -> tuple[float, float, float]:
    shape, rate = declared_pace(never_sells_share, days_to_sell)
    own, shared_sd = shared_out(shape)
    return own, float(np.log(shape / rate)), shared_sd


def _shared(kinds: Kinds, product: IntArray, model: TempoModel, shop_sd: FloatArray) -> tuple[TextArray, FloatArray]:
    """Names and sds of the levels each product shares; of several lines' the first in the alphabet."""
    found: dict[int, tuple[str, str, str]] = {}
    for p, key in zip(product.tolist(), zip(kinds.top, kinds.sub, kinds.brand, strict=True), strict=True):
        found[p] = min(found.get(p, key), key)
    keys = np.empty((len(found), len(SHARED)), dtype=object)
    for p, names in found.items():
        keys[p] = ("", *names)
    sd = np.zeros(keys.shape)
    sd[:, 0] = shop_sd
    if not model.declared:
        for at, level in enumerate(SHARED[1:], start=1):
            sd[:, at] = getattr(model, level).sd_of(keys[:, at])
    return keys, sd


def _names(name: TextArray, apart: BoolArray) -> TextArray:
    return texts([f"{one}\x1fassorted" if alone else one for one, alone in zip(name, apart, strict=True)])


def _of_known(values: FloatArray, own: IntArray, known: BoolArray) -> FloatArray:
    return np.where(known, values[own], 0.0) if len(values) else np.zeros(len(own))


def _unit_mean(values: FloatArray, weight: FloatArray, product: IntArray) -> FloatArray:
    return np.round(counted(product, values * weight) / counted(product, weight), EXACT)
