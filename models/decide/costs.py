"""What does selling one unit cost, by category?  A few numbers a row, so that other terms can be read later.

A row is what a lot's sums are kept by: which costs hold (cost key), which share of bad units holds (fate), and whether
units go singly or in packs.  Cash of one sold unit = price x price factor x net share - order costs.
"""

from dataclasses import dataclass

import numpy as np

from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray, texts
from models.values.settings import Selling, Settings


@dataclass(frozen=True)
class Rows:
    """Arrays of shape (n_rows,), sorted by cost key, then fate, then single units before packs."""

    cost_key: TextArray  # "" for the general costs, else a key of `by_category`
    fate: IntArray  # `Fate` codes
    packed: BoolArray  # True: units sold in packs

    def __len__(self) -> int:
        return len(self.cost_key)

    def take(self, index: IntArray) -> "Rows":
        """Some rows, in the order of `index`."""
        return Rows(self.cost_key[index], self.fate[index], self.packed[index])

    def tuples(self) -> list[tuple[str, int, bool]]:
        """One (cost key, fate, packed) a row: what sorts and tells rows apart."""
        return list(zip(self.cost_key.tolist(), self.fate.tolist(), self.packed.tolist(), strict=True))

    @staticmethod
    def of(tuples: list[tuple[str, int, bool]]) -> "Rows":
        """What `tuples` gave."""
        keys, fates, packed = zip(*tuples, strict=True) if tuples else ((), (), ())
        return Rows(texts(list(keys)), np.array(fates, dtype=np.int64), np.array(packed, dtype=bool))


@dataclass(frozen=True)
class SellingCosts:
    """Arrays of shape (n_rows,), one entry a row."""

    rows: Rows
    net_share: FloatArray  # of the price, what stays after fee, promotion and refunds
    order_costs: FloatArray  # [minor units] an order
    leftover_share: FloatArray  # of the net price
    price_factor: FloatArray  # of the single price: 1, or 1 - bundle_discount in packs; leftover units do without


def lot_rows(settings: Settings, category: TextArray, fate: IntArray) -> tuple[Rows, IntArray]:
    """The rows that a lot may touch, and which of them each line has.

    Parameters
    ----------
    settings : Settings
        In force.
    category : ndarray of shape (n_lines,)
        Full category texts of ALL lines of the lot: slices of it share the answer.
    fate : ndarray of shape (n_lines,)
        `Fate` codes of the lines.

    Returns
    -------
    rows : Rows
        In pairs: each row of single units is followed by that of packs.
    of_line : ndarray of shape (n_lines,)
        Index in `rows` of the line's row of single units.

    Examples
    --------
    >>> settings = Settings(by_category={"Toys": {"fee_share": 0.2}})
    >>> rows, of_line = lot_rows(settings, texts(["Toys > Dolls", "Garden"]), np.array([0, 1]))
    >>> rows.tuples(), of_line.tolist()
    ([('', 1, False), ('', 1, True), ('Toys', 0, False), ('Toys', 0, True)], [2, 0])
    """
    known = {name: settings.cost_key(name) for name in set(category.tolist())}
    of = [(known[name], code) for name, code in zip(category.tolist(), fate.tolist(), strict=True)]
    singles = sorted(set(of))
    index = {one: 2 * at for at, one in enumerate(singles)}
    rows = Rows.of([(key, code, packed) for key, code in singles for packed in (False, True)])
    return rows, np.array([index[one] for one in of], dtype=np.int64)


def selling_costs(settings: Settings, rows: Rows) -> SellingCosts:
    """The costs in force for each row.

    Parameters
    ----------
    settings : Settings
        In force; shares are fractions of the price, money in minor units.
    rows : Rows
        From `lot_rows`, or those of stored sums.

    Returns
    -------
    SellingCosts
        Shares and minor units.

    Notes
    -----
    price (1 - fee - advertising) - fixed fee - packing - postage - refund_share (postage + refund_loss_share x price),
    sorted by what grows with the price and what does not; in packs the price is (1 - bundle_discount) of the units'
    single prices, and an order is a pack.

    Examples
    --------
    >>> costs = selling_costs(Settings(), Rows.of([("", 0, False), ("", 0, True)]))
    >>> costs.net_share.round(3).tolist(), costs.order_costs.tolist(), costs.leftover_share.tolist()
    ([0.855, 0.855], [130.0, 130.0], [0.1, 0.1])
    >>> costs.price_factor.tolist()
    [1.0, 0.75]
    """
    held = [settings.selling_for(key) for key in rows.cost_key]
    factor = [1.0 - one.bundle_discount if packed else 1.0 for one, packed in zip(held, rows.packed, strict=True)]
    return SellingCosts(
        rows,
        np.array([_net_share(one) for one in held]),
        np.array([_order_costs(one) for one in held]),
        np.array([one.leftover_share for one in held]),
        np.array(factor),
    )


def _net_share(selling: Selling) -> float:
    return 1 - selling.fee_share - selling.advertising_share - selling.refund_share * selling.refund_loss_share


def _order_costs(selling: Selling) -> float:
    return selling.fixed_fee + selling.packing + selling.postage_each * (1 + selling.refund_share)
