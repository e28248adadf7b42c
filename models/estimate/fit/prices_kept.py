"""What of a fit is kept for pricing: own items with their means, noise by kind, counts of sales like each other."""

from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_matrix

from models.estimate.blocks import Facts, coded, joined
from models.estimate.fit.prices_items import Spread
from models.estimate.fit.prices_ridge import Variances
from models.estimate.price_model import Counts, Noise, OwnItems
from models.estimate.sparse_rows import SparseRows, from_entries
from models.values.arrays import FloatArray, IntArray, TextArray, texts
from models.values.conditions import CONDITIONS, Condition

_UNTESTED = CONDITIONS.index(Condition.UNTESTED)
_CONDITIONS = 7  # with unknown, which is the last of each table
DECLARED_NOISE_SD = 0.15


@dataclass(frozen=True)
class ItemKeys:
    """Items and products of the rows.  Sales made as untested are products of their own: they teach that state only."""

    item: IntArray  # (n_rows,)
    product: IntArray  # (n_items,) index in `product_id`
    condition: IntArray  # (n_items,) code
    product_id: IntArray  # (n_groups,) product of the book

    @classmethod
    def of(cls, product: IntArray, condition: IntArray) -> "ItemKeys":
        """Number the items, ordered by product and condition."""
        item_key, item = np.unique(product * 16 + condition + 1, return_inverse=True)
        own_condition = item_key % 16 - 1
        group_key, group = np.unique(item_key // 16 * 2 + (own_condition == _UNTESTED), return_inverse=True)
        return cls(item, group, own_condition, group_key // 2)

    @staticmethod
    def nothing() -> OwnItems:
        """No own item at all."""
        none = np.zeros(0, dtype=np.int64)
        rows = SparseRows(np.zeros(1, dtype=np.int64), none, np.zeros(0), 0)
        return OwnItems(none, none, none, np.zeros(0), np.zeros(0), rows)


def kept_items(keys: ItemKeys, spread: Spread, rows: csr_matrix, outcome: FloatArray) -> OwnItems:
    """Weighted means of each item's rows; items that sold as untested are not kept, no line is priced so."""
    weight = spread.item_weight
    share = spread.weight / weight[keys.item]
    mean = np.bincount(keys.item, share * outcome, minlength=len(weight)).astype(np.float64)
    row = np.repeat(np.arange(len(outcome)), np.diff(rows.indptr))
    by_item = from_entries(keys.item[row], rows.indices, share[row] * rows.data, (len(weight), rows.shape[1]))
    keep = np.flatnonzero(keys.condition != _UNTESTED)
    sales = np.bincount(keys.item, minlength=len(weight))
    product = keys.product_id[keys.product]
    return OwnItems(product[keep], keys.condition[keep], sales[keep], weight[keep], mean[keep], by_item.take(keep))


def kept_noise(facts: Facts, variances: Variances) -> Noise:
    """Noise tables as fitted."""
    by_condition, by_top, by_tag = variances.noise_tables
    top = texts(np.unique(facts.top.astype(str)).tolist())
    return Noise(variances.noise, by_condition, top, by_top, by_tag)


def no_noise() -> Noise:
    """Declared noise, where nothing was fitted.

    Examples
    --------
    >>> round(no_noise().common, 4)
    0.0225
    """
    return Noise(DECLARED_NOISE_SD**2, np.ones(_CONDITIONS), texts([]), np.zeros(0), np.ones(2))


def counts_of(facts: Facts) -> Counts:
    """Own sales by brand and sub-category, and by sub-category."""
    pair, of_pair = _counted(joined(facts.brand, facts.sub))
    sub, of_sub = _counted(facts.sub)
    both, of_both = _counted(joined(facts.sub, facts.top))
    top: dict[str, tuple[int, str]] = {}
    for name, count in zip(both.tolist(), of_both.tolist(), strict=True):
        own, above = name.split("\x1f")
        top[own] = max(top.get(own, (0, "")), (count, above))
    return Counts(pair, of_pair, sub, of_sub, texts([top[name][1] for name in sub.tolist()]))


def _counted(values: TextArray) -> tuple[TextArray, IntArray]:
    code, names = coded(values)
    return texts(names), np.bincount(code, minlength=len(names))
