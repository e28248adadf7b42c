"""What does selling cost in this shop, and in which categories is it otherwise?  Only what the columns tell."""

from collections import Counter, defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from models.estimate.fit.learned_fees import ROUNDING, FeeRule, believed_fees, fee_rule, taken_on
from models.estimate.fit.shrunk import shrunk
from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray
from models.values.categories import top_and_sub
from models.values.fields import Unit
from models.values.given import Given
from models.values.money import written
from models.values.sales import Sales
from models.values.settings import REGISTRY

LEAST_COST_ROWS, LEAST_REFUND_ROWS = 20, 100
TAILS = (0.01, 0.99)  # beyond these quantiles an amount is cut: one mistyped cell must not set a cost
SHARE_DIGITS = 4
MATERIAL = 0.01  # of the price: what differs by less only makes the list of assumptions longer
MOST_CATEGORIES = 8  # told apart: a lot's draws are kept by category, so every one makes reading them slower


@dataclass(frozen=True)
class _Cost:
    """One setting's amounts, a sold row each; NaN where a row does not tell."""

    key: str
    shop: float  # what holds in the whole shop
    of_row: FloatArray  # (n_rows,)


def learned_costs(sold: Sales, currency: str) -> Given:
    """The group `selling` of a settings document, `by_category` included; blank where nothing can be told.

    Parameters
    ----------
    sold : Sales
        Sold rows.
    currency : str
        ISO 4217 code of the amounts.

    Returns
    -------
    Given
        `fee_share` and `fixed_fee`: see `Notes`.  `postage_each`: mean of paid less charged.  Both from 20 sales on.
        `refund_share`: units refunded in whole or part, from 100 sales on, where the column is in use.
        `by_category`: the same keys of a top category with 20 sales or more that tell, shrunk to the shop's value by
        empirical Bayes, where the difference is worth 1% of the usual price; 8 categories at most.  What holds for
        the others is reckoned without the rows of those that have the key of their own, but for `fee_share`, which
        they hardly move.

    Notes
    -----
    `fee_share` is that of `fee_rule`.  Fees on postage that buyers pay are no share of the price, so they belong
    to what each order costs: `fixed_fee` is the mean of fees less `fee_share` times the price of a unit.  So the fees
    of an average sale come out right, whatever the split.
    """
    rule = fee_rule(sold, currency)
    sold = sold if rule is None else replace(sold, fees=believed_fees(sold, rule))
    costs = _costs(sold, rule)
    tops = _categories(sold.category)
    own = _by_category(sold, costs, tops, currency)
    group = {one.key: _told(one.key, _of_the_rest(sold, one, costs[0].shop, own, tops), currency) for one in costs}
    return group | ({"by_category": own} if own else {})


def _costs(sold: Sales, rule: FeeRule | None) -> list[_Cost]:
    found = []
    if rule is not None:
        found += [_Cost("fee_share", rule.share, _share_of_row(sold, rule)), _fixed_fee(sold, rule.share)]
    less = sold.shipping_paid - sold.shipping_charged
    if np.isfinite(less).sum() >= LEAST_COST_ROWS:
        found.append(_Cost("postage_each", _mean(less, sold.quantity), less))
    refunded = np.isfinite(sold.refunded) & (sold.refunded > 0)
    if len(sold) >= LEAST_REFUND_ROWS and refunded.any():
        share = float(sold.quantity[refunded].sum() / sold.quantity.sum())
        found.append(_Cost("refund_share", share, refunded.astype(float)))
    return found


def _share_of_row(sold: Sales, rule: FeeRule) -> FloatArray:
    """The fee share that each row alone would tell, the fixed fee being what it is."""
    base = np.where(sold.sold_price > 0, taken_on(sold, rule), np.nan)
    share: FloatArray = (sold.fees - rule.fixed / sold.quantity) / base
    return share


def _fixed_fee(sold: Sales, share: FloatArray | float) -> _Cost:
    beside = sold.fees - share * sold.sold_price
    return _Cost("fixed_fee", max(0.0, _mean(beside, sold.quantity)), beside)


def _mean(amounts: FloatArray, units: IntArray) -> float:
    told = np.isfinite(amounts)
    cut = np.clip(amounts[told], *np.quantile(amounts[told], TAILS))
    return float(np.average(cut, weights=units[told].astype(float)))


def _of_the_rest(
    sold: Sales, cost: _Cost, share: float, own: Mapping[str, Mapping[str, Any]], tops: tuple[list[str], IntArray]
) -> float:
    """What holds where no category has a value of its own; the whole shop's where too few rows are left to tell."""
    names, of_row = tops
    apart = np.isin(of_row, [at for at, name in enumerate(names) if cost.key in own.get(name, {})])
    if cost.key == "fee_share" or not apart.any():
        return cost.shop
    shares = {at: own[name]["fee_share"] for at, name in enumerate(names) if "fee_share" in own.get(name, {})}
    amounts = _beside(sold, cost, share, shares, of_row).of_row if cost.key == "fixed_fee" else cost.of_row
    rest = ~apart & np.isfinite(amounts)
    if rest.sum() < (LEAST_REFUND_ROWS if cost.key == "refund_share" else LEAST_COST_ROWS):
        return cost.shop
    if cost.key == "refund_share":  # rare: what is beyond a quantile is no slip
        return float(np.average(amounts[rest], weights=sold.quantity[rest].astype(float)))
    mean = _mean(amounts[rest], sold.quantity[rest])
    return max(0.0, mean) if cost.key == "fixed_fee" else mean


def _by_category(
    sold: Sales, costs: list[_Cost], tops: tuple[list[str], IntArray], currency: str
) -> dict[str, dict[str, Any]]:
    """The keys of each category that are worth telling, of those categories that make most of a difference."""
    names, of_row = tops
    usual = float(np.median(sold.sold_price)) if len(sold) else 0.0
    if not names or not costs or usual <= 0:
        return {}
    found: dict[str, dict[str, Any]] = {}
    effect: defaultdict[str, float] = defaultdict(float)
    shares: dict[int, float] = {}
    for cost in costs:
        one = _beside(sold, cost, costs[0].shop, shares, of_row) if cost.key == "fixed_fee" else cost
        own = _own(one, of_row, sold.quantity, usual)
        shares = own if cost.key == "fee_share" else shares
        for at, value in own.items():
            found.setdefault(names[at], {})[cost.key] = _told(cost.key, value, currency)
            effect[names[at]] += float(sold.quantity[of_row == at].sum()) * _worth(cost, value, usual)
    kept = sorted(effect, key=lambda name: (-effect[name], name))[:MOST_CATEGORIES]
    return {name: found[name] for name in sorted(kept)}


def _categories(category: TextArray) -> tuple[list[str], IntArray]:
    """Top categories as the history mostly spells them, and which of them each row has; -1 for blank."""
    spelled = [text.split(">")[0].strip() for text in category.tolist()]
    tops = [top_and_sub(text)[0] for text in spelled]
    found = sorted(set(tops) - {""})
    index = {top: at for at, top in enumerate(found)} | {"": -1}
    written_as: list[Counter[str]] = [Counter() for _ in found]
    for top, text in zip(tops, spelled, strict=True):
        if top:
            written_as[index[top]][text] += 1
    names = [min(one, key=lambda text: (-one[text], text)) for one in written_as]
    return names, np.array([index[top] for top in tops], dtype=np.int64)


def _beside(sold: Sales, cost: _Cost, share: float, shares: Mapping[int, float], of_row: IntArray) -> _Cost:
    """What fees take beside their share, where some categories have a share of their own."""
    of_price = np.full(len(sold), share)
    for at, own in shares.items():
        of_price[of_row == at] = own
    return _Cost(cost.key, cost.shop, _fixed_fee(sold, of_price).of_row)


def _own(cost: _Cost, of_row: IntArray, units: IntArray, usual: float) -> dict[int, float]:
    """Values of the categories that have 20 rows or more and differ by what is worth telling, by category."""
    told = np.isfinite(cost.of_row) & (of_row >= 0)
    enough = np.flatnonzero(np.bincount(of_row[told], minlength=1) >= LEAST_COST_ROWS)
    if len(enough) < 2:
        return {}
    cut = _without_slips(cost.of_row, told)
    each = [told & (of_row == at) for at in enough.tolist()]
    mean = np.array([np.average(cut[rows], weights=units[rows]) for rows in each])
    within = np.array(
        [np.average((cut[rows] - at) ** 2, weights=units[rows]) for rows, at in zip(each, mean, strict=True)]
    )
    independent = np.array([units[rows].sum() ** 2 / (units[rows] ** 2.0).sum() for rows in each])
    least = (ROUNDING / (usual if _is_share(cost) else 1.0)) ** 2
    variance = np.maximum(np.maximum(within, np.average(within, weights=independent)), least) / independent
    values = shrunk(mean, variance, cost.shop)
    return {
        at: value
        for at, value in zip(enough.tolist(), values.tolist(), strict=True)
        if _worth(cost, value, usual) >= MATERIAL * usual
    }


def _without_slips(amounts: FloatArray, told: BoolArray) -> FloatArray:
    """Amounts cut far outside the shop's usual ones: a small dear category keeps its own, a mistyped cell does not."""
    low, high = np.quantile(amounts[told], TAILS)
    cut: FloatArray = np.clip(amounts, 2 * low - high, 2 * high - low)
    return cut


def _worth(cost: _Cost, value: float, usual: float) -> float:
    """What a category's own value changes on a usual sale [minor units]."""
    return abs(value - cost.shop) * (usual if _is_share(cost) else 1.0)


def _is_share(cost: _Cost) -> bool:
    return REGISTRY[f"selling.{cost.key}"].unit is Unit.SHARE


def _told(key: str, value: float, currency: str) -> Any:
    """As a settings document writes it, within what it accepts."""
    declared = REGISTRY[f"selling.{key}"]
    kept = min(max(value, -np.inf if declared.least is None else declared.least), declared.most or np.inf)
    return round(kept, SHARE_DIGITS) if declared.unit is Unit.SHARE else written(kept, currency)
