"""What does each line bring and take in each draw?  In whole grains, so that sums of lines are exact.

Each line's share is cut to a grain that is a power of two; sums of whole grains do not depend on their order.
"""

from dataclasses import dataclass, fields

import numpy as np

from models.decide.costs import SellingCosts
from models.decide.slice_draws import Reading, SliceDraws
from models.values.arrays import FloatArray, IntArray

MONEY = 2.0**10  # grains in a minor unit: sums stay exact up to 8e12 minor units
COUNT = 2.0**24  # grains in a unit, an order or a minute: up to 5e8 of them


@dataclass(frozen=True)
class Way:
    """How lines are sold, singly or in packs; arrays of shape (n_lines, n_draws)."""

    units: FloatArray  # sold
    parcels: FloatArray  # that they go in
    opened: FloatArray  # 1 where there is anything to list, else 0
    minutes: FloatArray  # (n_lines, 3), of listing the whole line: first, repeat, used


def singly(draws: SliceDraws) -> Way:
    """Every unit a parcel of its own.

    Returns
    -------
    Way
        Units, parcels and minutes as drawn; nothing is listed where nothing is saleable.
    """
    return Way(draws.sold, draws.sold, (draws.saleable > 0).astype(np.float64), draws.facts.minutes)


@dataclass(frozen=True)
class LineGrains:
    """Arrays of shape (n_lines, n_draws) in whole grains; changed in place by this room alone: they are the largest
    arrays of an evaluation.
    """

    sold: FloatArray  # [units]
    parcels: FloatArray
    gross: FloatArray  # [money]
    worth: FloatArray  # [money], discounted
    orders: FloatArray  # parcels, discounted
    leftover_worth: FloatArray  # [money], discounted; 0 in lines whose selling costs eat the price
    leftover_units: FloatArray  # discounted; likewise
    sorting: FloatArray  # [minutes]
    packing: FloatArray  # [minutes]
    opened: FloatArray  # 1 or 0, no grains
    minutes: FloatArray  # (n_lines, 3), listing where opened [minutes]

    @staticmethod
    def of(draws: SliceDraws, way: Way, reading: Reading) -> "LineGrains":
        """Lines sold in one way."""
        gross = draws.price * way.units
        leftover = (draws.saleable - way.units) * reading.leftover_discount
        lines = LineGrains(
            sold=_whole(way.units.copy(), COUNT),
            parcels=_whole(way.parcels.copy(), COUNT),
            worth=_whole(gross * draws.discount, MONEY),
            gross=_whole(gross, MONEY),  # after its last use: it is written over
            orders=_whole(way.parcels * draws.discount, COUNT),
            leftover_worth=_whole(draws.price * leftover, MONEY),
            leftover_units=_whole(leftover, COUNT),
            sorting=_whole((draws.saleable + draws.dead) * reading.minutes_sort, COUNT),
            packing=_whole(way.parcels * reading.minutes_pack, COUNT),
            opened=way.opened,
            minutes=_whole(way.minutes.copy(), COUNT),
        )
        lines._drop_worthless(np.arange(len(lines.minutes)), draws.facts.row, reading)
        return lines

    def _drop_worthless(self, rows: IntArray, row: IntArray, reading: Reading) -> None:
        """Leftovers of lines whose selling costs eat the price bring nothing, and cost nothing."""
        costs = reading.costs
        worth = costs.net_share[row] * self.leftover_worth[rows].mean(axis=1) / MONEY
        eaten = rows[worth < costs.order_costs[row] * self.leftover_units[rows].mean(axis=1) / COUNT]
        self.leftover_worth[eaten] = 0.0
        self.leftover_units[eaten] = 0.0

    def leave_over(self, rows: IntArray, draws: SliceDraws, reading: Reading) -> None:
        """These lines not sold: no listing, no parcel, all saleable units left over."""
        for sold in (self.sold, self.parcels, self.gross, self.worth, self.orders, self.packing, self.opened):
            sold[rows] = 0.0
        leftover = draws.saleable[rows] * reading.leftover_discount
        self.leftover_worth[rows] = _whole(draws.price[rows] * leftover, MONEY)
        self.leftover_units[rows] = _whole(leftover, COUNT)
        self._drop_worthless(rows, draws.facts.row[rows], reading)

    def put(self, rows: IntArray, lines: "LineGrains") -> None:
        """These lines sold in another way."""
        for field in fields(LineGrains):
            getattr(self, field.name)[rows] = getattr(lines, field.name)

    def listing(self) -> FloatArray:
        """Listing minutes added over the lines, shape (3, n_draws): first, repeat, used."""
        return np.asarray(np.ascontiguousarray(self.minutes.T) @ self.opened) / COUNT  # whole: exact in any order


def _whole(values: FloatArray, in_one: float) -> FloatArray:
    """Whole grains, written over `values`."""
    np.multiply(values, in_one, out=values)
    np.rint(values, out=values)
    return values


@dataclass(frozen=True)
class LineMeans:
    """Expected values of lines, shape (n_lines,) unless said: money in minor units, counts, minutes."""

    sold: FloatArray
    gross: FloatArray
    worth: FloatArray
    orders: FloatArray
    leftover_worth: FloatArray
    leftover_units: FloatArray
    sorting: FloatArray
    packing: FloatArray
    listing: FloatArray

    @staticmethod
    def of(lines: LineGrains) -> "LineMeans":
        """Over the draws."""

        def mean(grains: FloatArray, in_one: float) -> FloatArray:
            return np.asarray(grains.mean(axis=1)) / in_one

        return LineMeans(
            sold=mean(lines.sold, COUNT),
            gross=mean(lines.gross, MONEY),
            worth=mean(lines.worth, MONEY),
            orders=mean(lines.orders, COUNT),
            leftover_worth=mean(lines.leftover_worth, MONEY),
            leftover_units=mean(lines.leftover_units, COUNT),
            sorting=mean(lines.sorting, COUNT),
            packing=mean(lines.packing, COUNT),
            listing=mean(lines.opened, 1.0) * lines.minutes.sum(axis=1) / COUNT,
        )

    def price_part(self, costs: SellingCosts, row: IntArray) -> FloatArray:
        """Of each line's cash, what grows with the unit price; `row` of shape (n_lines,), as the lines are sold."""
        worth = costs.price_factor[row] * self.worth + costs.leftover_share[row] * self.leftover_worth
        return costs.net_share[row] * worth

    def order_part(self, costs: SellingCosts, row: IntArray) -> FloatArray:
        """Of each line's cash, what does not: costs, so mostly negative."""
        orders = self.orders + costs.leftover_share[row] * self.leftover_units
        return -costs.order_costs[row] * orders

    @property
    def own_minutes(self) -> FloatArray:
        """Minutes that selling takes beyond leaving over: listing and packing, not sorting."""
        return self.listing + self.packing
