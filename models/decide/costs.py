"""What does selling one unit cost, by category?  Three numbers a category, so that other terms can be read later.

Cash of one sold unit = price x net share - order costs, both from the category's selling costs.
"""

from dataclasses import dataclass

import numpy as np

from models.values.arrays import FloatArray, IntArray, TextArray, texts
from models.values.settings import Selling, Settings


@dataclass(frozen=True)
class SellingCosts:
    """Arrays of shape (n_keys,), one entry a cost key: "" for the general costs, else a key of `by_category`."""

    keys: TextArray
    net_share: FloatArray  # of the price, what stays after fee, promotion and refunds
    order_costs: FloatArray  # [minor units] an order
    leftover_share: FloatArray  # of the net price


def lot_cost_keys(settings: Settings, category: TextArray) -> tuple[TextArray, IntArray]:
    """The cost keys that a lot touches, sorted, and which of them each line has.

    Parameters
    ----------
    settings : Settings
        In force.
    category : ndarray of shape (n_lines,)
        Full category texts of ALL lines of the lot: slices of it share the answer.

    Returns
    -------
    keys : ndarray of shape (n_keys,)
        Texts, at least one.
    of_line : ndarray of shape (n_lines,)
        Index in `keys`.

    Examples
    --------
    >>> settings = Settings(by_category={"Toys": {"fee_share": 0.2}})
    >>> keys, of_line = lot_cost_keys(settings, texts(["Toys > Dolls", "Garden"]))
    >>> keys.tolist(), of_line.tolist()
    (['', 'Toys'], [1, 0])
    """
    known = {name: settings.cost_key(name) for name in set(category.tolist())}
    keys = sorted(set(known.values())) or [""]
    index = {key: at for at, key in enumerate(keys)}
    return texts(keys), np.array([index[known[name]] for name in category], dtype=np.int64)


def selling_costs(settings: Settings, keys: TextArray) -> SellingCosts:
    """The costs in force for each cost key.

    Parameters
    ----------
    settings : Settings
        In force; shares are fractions of the price, money in minor units.
    keys : ndarray of shape (n_keys,)
        From `lot_cost_keys`.

    Returns
    -------
    SellingCosts
        Shares and minor units.

    Notes
    -----
    price (1 - fee - advertising) - fixed fee - packing - postage - refund_share (postage + refund_loss_share x price),
    sorted by what grows with the price and what does not.

    Examples
    --------
    >>> costs = selling_costs(Settings(), texts([""]))
    >>> costs.net_share.round(3).tolist(), costs.order_costs.tolist(), costs.leftover_share.tolist()
    ([0.855], [130.0], [0.1])
    """
    held = [settings.selling_for(key) for key in keys]
    return SellingCosts(
        keys,
        np.array([_net_share(one) for one in held]),
        np.array([_order_costs(one) for one in held]),
        np.array([one.leftover_share for one in held]),
    )


def _net_share(selling: Selling) -> float:
    return 1 - selling.fee_share - selling.advertising_share - selling.refund_share * selling.refund_loss_share


def _order_costs(selling: Selling) -> float:
    return selling.fixed_fee + selling.packing + selling.postage_each * (1 + selling.refund_share)
