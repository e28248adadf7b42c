"""What do a line's own past sales say of it?  Its product's effect and its item's deviation, as weights on own items.

a = B (y - X theta): an error in theta enters a known line with x - B X, not x; its own sales undo it.
"""

from dataclasses import dataclass

import numpy as np

from models.estimate.lot_states import States
from models.estimate.price_model import OwnItems, PriceModel
from models.estimate.sparse_rows import SparseRows, from_entries
from models.estimate.tags import PRICE_SLOPE
from models.values.arrays import BoolArray, FloatArray, IntArray


@dataclass(frozen=True)
class OwnSales:
    """Arrays of shape (n_lines,)."""

    weights: SparseRows  # (n_lines, n_items) B: how each own item's mean enters a line
    sales: IntArray  # own sales of the line's item, 0 none
    product_var: FloatArray  # variance of its product's effect that is left
    product_load: FloatArray  # how much of the product's effect the line still carries
    item_var: FloatArray  # variance of its item's deviation that is left
    untold: BoolArray  # its condition was not told: it is priced in the usual one and is no own item


def own_sales(model: PriceModel, product: IntArray, states: States) -> OwnSales:
    """Weights and left-over variances of each line.

    Parameters
    ----------
    product : ndarray of shape (n_lines,)
        Own product of each line, -1 for none.
    states : States
        Condition each line is priced in.
    """
    items = model.items
    share = items.weight * model.item_var / (1 + items.weight * model.item_var)
    told = items.weight * (1 - share)
    prior = model.product_var + PRICE_SLOPE**2 * model.products.tag_var[product]
    prior = np.where(product >= 0, prior, model.product_var).astype(np.float64)
    row, entry = _pairs(items, product)
    known = np.bincount(row, told[entry], minlength=len(product))
    own = np.where((items.condition[entry] == states.condition[row]), share[entry], 0.0)
    own_share = np.bincount(row, own, minlength=len(product)).astype(np.float64)
    pull = (1 - own_share[row]) * told[entry] * prior[row] / (1 + known[row] * prior[row])
    sales = np.bincount(
        row, np.where((own > 0) & ~states.untold[row], items.sales[entry], 0), minlength=len(product)
    ).astype(np.int64)
    weights = from_entries(row, entry, pull + own, (len(product), len(items.product)))
    left = prior / (1 + known * prior), 1 - own_share, model.item_var * (1 - own_share)
    return OwnSales(weights, sales, *left, states.untold)


def _pairs(items: OwnItems, product: IntArray) -> tuple[IntArray, IntArray]:
    """Every line with every own item of its product."""
    first = np.searchsorted(items.product, product, side="left")
    last = np.searchsorted(items.product, product, side="right")
    count = last - first
    row = np.repeat(np.arange(len(product)), count)
    start = np.concatenate([[0], np.cumsum(count)[:-1]]).astype(np.int64) if len(product) else count
    return row, np.repeat(first - start, count) + np.arange(int(count.sum()))
