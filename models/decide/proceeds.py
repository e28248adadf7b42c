"""What does a slice of a lot's lines bring in, and what does it take?  Cash and hours: two ledgers, never mixed.

Cash of a line = sold x (price x net share - order costs) + leftover x leftover share x (price x net share - order
costs), kept apart by what grows with the price, so that a rivals' shade can be applied later without an error.
Everything adds up over slices to the last bit: each line's share is first cut to a grain that is a power of two, and
sums of whole grains are exact.
"""

from dataclasses import dataclass, replace

import numpy as np

from models.decide.actions import Action, line_actions
from models.decide.components import Components
from models.decide.costs import SellingCosts
from models.values.arrays import BoolArray, FloatArray, IntArray

_MONEY = 2.0**10  # grains in a minor unit: sums stay exact up to 8e12 minor units
_COUNT = 2.0**24  # grains in a unit, an order or a minute: up to 5e8 of them


@dataclass(frozen=True)
class SliceDraws:
    """What is drawn for a slice of lines; (n_lines, n_draws) unless said, `/ 1` where it may also be (n_lines, 1)."""

    price: FloatArray  # mean unit price of the line's units [minor units], unshaded; NaN: unknown, brings nothing
    saleable: FloatArray  # units that arrived and work
    dead: FloatArray  # units that arrived and do not
    sold: FloatArray  # of the saleable ones within the horizon, if listed
    discount: FloatArray  # / 1, of the money of units sold, to the day of payment
    minutes_listing: FloatArray  # / 1, of the whole line, if listed
    cost_key: IntArray  # (n_lines,), index in the lot's cost keys
    never: BoolArray  # (n_lines,)
    chosen: IntArray  # (n_lines,), the seller's own `Action` codes, `NOT_CHOSEN` where they left it to us


@dataclass(frozen=True)
class Reading:
    """How a slice is valued: the same for all slices of a lot."""

    costs: SellingCosts
    hourly_pay: float  # [minor units]
    minutes_sort: float  # a unit that arrived
    minutes_pack: float  # an order
    leftover_discount: float = 1.0  # of money at the horizon, to the day of payment


@dataclass(frozen=True)
class LineValues:
    """Expected values of each whole line under its action, shape (n_lines,); money in minor units, discounted."""

    action: IntArray  # `Action` codes
    price_part: FloatArray  # of cash, grows with the unit price
    order_part: FloatArray  # of cash, does not: costs, so mostly negative
    minutes_sorting: FloatArray
    minutes_listing: FloatArray
    minutes_packing: FloatArray

    def cash(self, shade: float = 1.0) -> FloatArray:
        """Expected cash proceeds [minor units], shape (n_lines,)."""
        return shade * self.price_part + self.order_part

    def after_pay(self, shade: float, hourly_pay: float) -> FloatArray:
        """Expected proceeds after pay [minor units], shape (n_lines,)."""
        minutes = self.minutes_sorting + self.minutes_listing + self.minutes_packing
        return self.cash(shade) - hourly_pay * minutes / 60


@dataclass(frozen=True)
class SliceValue:
    """A slice's sums per draw, and its lines."""

    components: Components
    lines: LineValues


def value_slice(draws: SliceDraws, reading: Reading) -> SliceValue:
    """Choose each line's action and add the slice up.

    Parameters
    ----------
    draws : SliceDraws
        Of any number of lines; slices of one lot may be valued apart and added.
    reading : Reading
        Costs, pay and minutes.

    Returns
    -------
    SliceValue
        Sums per draw with the lines' expected values.

    Raises
    ------
    ValueError
        If more units are sold than are saleable.

    Examples
    --------
    >>> from models.decide.costs import selling_costs
    >>> from models.values.arrays import texts
    >>> from models.values.settings import Settings
    >>> units = np.array([[2.0, 2.0]])
    >>> draws = SliceDraws(
    ...     price=np.array([[3000.0, 5000.0]]), saleable=units, dead=units * 0, sold=np.array([[1.0, 2.0]]),
    ...     discount=np.ones((1, 1)), minutes_listing=np.array([[12.0]]), cost_key=np.array([0]),
    ...     never=np.array([False]), chosen=np.array([-1]))
    >>> costs = selling_costs(Settings(), texts([""]))
    >>> value = value_slice(draws, Reading(costs, hourly_pay=1500.0, minutes_sort=2.0, minutes_pack=6.0))
    >>> value.components.cash(costs).tolist()  # 3000 x .855 - 130 = 2435, a tenth of it for the unit left over
    [2678.0, 8290.0]
    """
    if (draws.sold > draws.saleable).any():
        raise ValueError("more units are sold than are saleable")
    if np.isnan(draws.price.sum()):
        draws = replace(draws, price=np.nan_to_num(draws.price, nan=0.0))
    listed = _Grains.of(draws, reading)
    action = _actions(listed, draws, reading)
    chosen = listed.leave_over(np.flatnonzero(action != Action.LIST), draws, reading)
    chosen.sorting[action == Action.NEVER] = 0.0  # what is never sold here takes no hours at all
    return SliceValue(_summed(chosen, draws, reading), _line_values(chosen, draws, reading, action))


@dataclass(frozen=True)
class _Grains:
    """Every line's quantities in each draw, shape (n_lines, n_draws), in whole grains; this module's own, so changed
    in place: these are the largest arrays of an evaluation.
    """

    sold: FloatArray  # [units]
    gross: FloatArray  # [money]
    worth: FloatArray  # [money]
    orders: FloatArray  # discounted
    leftover_worth: FloatArray  # [money]
    leftover_units: FloatArray  # discounted
    sorting: FloatArray  # [minutes]
    listing: FloatArray  # [minutes]
    packing: FloatArray  # [minutes]

    @staticmethod
    def of(draws: SliceDraws, reading: Reading) -> "_Grains":
        """All lines listed."""
        gross = draws.price * draws.sold
        leftover = (draws.saleable - draws.sold) * reading.leftover_discount
        return _Grains(
            sold=_grains(draws.sold.copy(), _COUNT),
            worth=_grains(gross * draws.discount, _MONEY),
            gross=_grains(gross, _MONEY),  # last: it is written over
            orders=_grains(draws.sold * draws.discount, _COUNT),
            leftover_worth=_grains(draws.price * leftover, _MONEY),
            leftover_units=_grains(leftover, _COUNT),
            sorting=_grains((draws.saleable + draws.dead) * reading.minutes_sort, _COUNT),
            listing=_grains(draws.minutes_listing * (draws.saleable > 0), _COUNT),
            packing=_grains(draws.sold * reading.minutes_pack, _COUNT),
        )

    def leave_over(self, rows: IntArray, draws: SliceDraws, reading: Reading) -> "_Grains":
        """These lines not listed: nothing sold, no listing minutes, all saleable units left over."""
        for sold in (self.sold, self.gross, self.worth, self.orders, self.listing, self.packing):
            sold[rows] = 0.0
        leftover = draws.saleable[rows] * reading.leftover_discount
        self.leftover_worth[rows] = _grains(draws.price[rows] * leftover, _MONEY)
        self.leftover_units[rows] = _grains(leftover, _COUNT)
        return self


def _grains(values: FloatArray, in_one: float) -> FloatArray:
    """Whole grains, written over `values`."""
    np.multiply(values, in_one, out=values)
    np.rint(values, out=values)
    return values


def _actions(listed: _Grains, draws: SliceDraws, reading: Reading) -> IntArray:
    costs, key, later = reading.costs, draws.cost_key, reading.leftover_discount
    skipped_worth = _mean(listed.leftover_worth, _MONEY) + later * _mean(listed.gross, _MONEY)
    skipped = costs.net_share[key] * skipped_worth - costs.order_costs[key] * later * draws.saleable.mean(axis=1)
    own_minutes = _mean(listed.listing, _COUNT) + _mean(listed.packing, _COUNT)
    cash_listed = np.add(*_cash_parts(listed, costs, key))
    cash_skipped = costs.leftover_share[key] * skipped
    return line_actions(cash_listed, cash_skipped, own_minutes, reading.hourly_pay, draws.never, draws.chosen)


def _cash_parts(lines: _Grains, costs: SellingCosts, key: IntArray) -> tuple[FloatArray, FloatArray]:
    """Expected cash of each line: what grows with the price, and what does not."""
    worth = _mean(lines.worth, _MONEY) + costs.leftover_share[key] * _mean(lines.leftover_worth, _MONEY)
    orders = _mean(lines.orders, _COUNT) + costs.leftover_share[key] * _mean(lines.leftover_units, _COUNT)
    return costs.net_share[key] * worth, -costs.order_costs[key] * orders


def _mean(grains: FloatArray, in_one: float) -> FloatArray:
    mean: FloatArray = grains.mean(axis=1) / in_one
    return mean


def _line_values(lines: _Grains, draws: SliceDraws, reading: Reading, action: IntArray) -> LineValues:
    minutes = (_mean(kind, _COUNT) for kind in (lines.sorting, lines.listing, lines.packing))
    return LineValues(action, *_cash_parts(lines, reading.costs, draws.cost_key), *minutes)


def _summed(lines: _Grains, draws: SliceDraws, reading: Reading) -> Components:
    keys, of_line = reading.costs.keys, draws.cost_key
    sold = lines.sold.sum(axis=0) / _COUNT
    return Components(
        keys=keys,
        gross_sold=lines.gross.sum(axis=0) / _MONEY,
        orders=sold,
        units_sold=sold,
        sold_worth=_by_key(lines.worth, of_line, len(keys)) / _MONEY,
        sold_orders=_by_key(lines.orders, of_line, len(keys)) / _COUNT,
        leftover_worth=_by_key(lines.leftover_worth, of_line, len(keys)) / _MONEY,
        leftover_units=_by_key(lines.leftover_units, of_line, len(keys)) / _COUNT,
        minutes_sorting=lines.sorting.sum(axis=0) / _COUNT,
        minutes_listing=lines.listing.sum(axis=0) / _COUNT,
        minutes_packing=lines.packing.sum(axis=0) / _COUNT,
    )


def _by_key(grains: FloatArray, of_line: IntArray, n_keys: int) -> FloatArray:
    if n_keys == 1:  # almost always: no copy
        return np.asarray(grains.sum(axis=0, keepdims=True))
    return np.stack([grains[of_line == key].sum(axis=0) for key in range(n_keys)])
