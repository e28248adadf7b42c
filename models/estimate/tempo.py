"""How many units of each line will sell by when?  Depth belongs to the product, over lines, pallets and own stock.

Identical units sell as one Poisson stream of rate lam [1/day] while at least one is in stock, lam ~ Gamma(a, b).  With
N sales possible by day t, P(N >= k) = I_{t/(b+t)}(k, a), and own stock goes first: of q new units on top of s own ones,
E min(N, s + q) - E min(N, s) sell.  That is the lot's marginal value: own stock would have sold anyway.
An assorted line is many different goods: each of its units is a product of its own.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from models.estimate.products import Matched
from models.estimate.tempo_declared import declared_pace, tempo_cautions
from models.estimate.tempo_levels import brand_keys, category_keys, counted, price_level
from models.estimate.tempo_lot import EXACT, SHARED, LotTempo
from models.estimate.tempo_model import Kinds, TempoModel
from models.estimate.tempo_season import in_season
from models.estimate.tempo_shares import days_to_sell, expected_sales, share_sold
from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray, texts
from models.values.lines import Lines
from models.values.settings import Selling

__all__ = ["LotTempo", "days_to_sell", "expected_sales", "in_season", "pace_lot", "share_sold"]


@dataclass(frozen=True)
class _Weights:
    product: IntArray  # (n_lines,)
    quantity: FloatArray

    def mean(self, values: FloatArray) -> FloatArray:
        """Mean over each product's units, whatever the order of its lines."""
        total = counted(self.product, self.quantity)
        return np.round(counted(self.product, values * self.quantity) / total, EXACT)


SEASON_SD = 0.15  # of the months ahead, where the history is too short to tell the season


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
    each = _Weights(product, quantity)
    units = counted(product, quantity, len(ids))
    known = ~apart & (ids // 2 < len(model.sales))
    own = np.where(known, ids // 2, 0)
    kinds = _kinds(lines, model, price_each)
    selling = {name: selling_for(name) for name in set(lines.category.tolist())}
    told = [(one.never_sells_share, one.days_to_sell) for one in (selling[name] for name in lines.category.tolist())]
    shape, ln_mu, shop_sd = _pace(kinds, model, told)
    key, sd = _shared(kinds, each, model, shop_sd)
    ln_mu = each.mean(ln_mu)
    sales, expected = _own(model, own, known, np.exp(ln_mu))
    return LotTempo(
        product=product, quantity=quantity, name=_names(matched.name[first], apart), units=units,
        stock=_of_known(model.stock, own, known), ln_mu=ln_mu, prior_shape=each.mean(shape), sales=sales,
        expected=expected, shared_key=key, shared_sd=sd, apart=apart, month_effect=model.month_effect,
        cautions=tempo_cautions(model, told, bool(model.declared and sales.any())),
    )  # fmt: skip


def _own(model: TempoModel, own: IntArray, known: BoolArray, mu: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Own sales of each product and how many its kind expected.

    A declared pace is raised by sales that came faster, never lowered by fewer: the days on offer are not known.
    """
    if not model.declared:
        return _of_known(model.sales, own, known), _of_known(model.expected, own, known)
    if not len(model.least_sales):  # kept by an older version
        return np.zeros(len(mu)), np.zeros(len(mu))
    sales, expected = _of_known(model.least_sales, own, known), _of_known(model.least_days, own, known) * mu
    faster = sales > expected
    return np.where(faster, sales, 0.0), np.where(faster, expected, 0.0)


def _kinds(lines: Lines, model: TempoModel, price_each: FloatArray) -> Kinds:
    top, sub = category_keys(lines.category)
    fine, coarse = model.price_category.value_of(sub), model.price_category.value_of(top)
    level = price_level(price_each, np.where(np.isfinite(fine), fine, coarse))
    return Kinds(top, sub, brand_keys(lines.brand), lines.condition.astype(np.int64), level)


def _pace(
    kinds: Kinds, model: TempoModel, told: list[tuple[float, float]]
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Of each line: shape of the frailty, ln mu, and the sd of ln mu that the whole shop shares."""
    n = len(kinds.top)
    if not model.declared:
        unknown_season = 0.0 if model.seasonal else SEASON_SD
        shop_sd = float(np.hypot(min(1.0, model.base_information**-0.5), unknown_season))
        return np.full(n, model.shape), model.ln_rate(kinds), np.full(n, shop_sd)
    found = {pair: _declared(*pair) for pair in set(told)}
    shape, ln_mu, shared_sd = np.array([found[pair] for pair in told]).reshape(n, 3).T
    return shape, ln_mu, shared_sd


def _declared(never_sells_share: float, days_to_sell: float) -> tuple[float, float, float]:
    shape, rate, shared_sd = declared_pace(never_sells_share, days_to_sell)
    return shape, float(np.log(shape / rate)), shared_sd


def _shared(kinds: Kinds, lot: _Weights, model: TempoModel, shop_sd: FloatArray) -> tuple[TextArray, FloatArray]:
    """Names and sds of the levels each product shares; of several lines' the first in the alphabet."""
    states = np.where(kinds.condition >= 0, kinds.condition.astype(str), "")
    found: dict[int, tuple[str, ...]] = {}
    for p, key in zip(lot.product.tolist(), zip(kinds.top, kinds.sub, kinds.brand, states, strict=True), strict=True):
        found[p] = min(found.get(p, key), key)
    keys = np.full((len(found), len(SHARED)), "", dtype=object)
    for p, names in found.items():
        keys[p, 1:-1] = names
    sd = np.zeros(keys.shape)
    sd[:, 0] = lot.mean(shop_sd)
    if not model.declared:
        for at, level in enumerate(SHARED[1:4], start=1):
            sd[:, at] = getattr(model, level).sd_of(keys[:, at])
        state = np.array([int(name or -1) for name in keys[:, 4].tolist()], dtype=int)
        sd[:, 4] = np.where(state >= 0, model.condition_sd[state], 0.0)
        sd[:, 5] = model.price_slope_sd * lot.mean(kinds.price_level)
    return keys, sd


def _names(name: TextArray, apart: BoolArray) -> TextArray:
    return texts([f"{one}\x1fassorted" if alone else one for one, alone in zip(name, apart, strict=True)])


def _of_known(values: FloatArray, own: IntArray, known: BoolArray) -> FloatArray:
    return np.where(known, values[own], 0.0) if len(values) else np.zeros(len(own))
