"""What is kept of a lot's draws, so that other terms can be read without drawing again?

Sums over lines, per draw, before any selling cost, bundle discount, rivals' shade or pay: those are applied on reading.
"""

from dataclasses import dataclass, fields, replace

import numpy as np

from models.decide.costs import Rows, SellingCosts
from models.values.arrays import Arrays, BoolArray, FloatArray, IntArray, TextArray


@dataclass(frozen=True)
class Components:
    """Arrays of shape (n_draws,), or (n_rows, n_draws) where split by row.  Money in minor units, unshaded.

    Only rows that occur are kept, in the order of `Rows`.  Discounted means brought to the day of payment; prices are
    those of single units throughout, also for units sold in packs.
    """

    cost_key: TextArray  # (n_rows,)
    fate: IntArray  # (n_rows,), `Fate` codes
    packed: BoolArray  # (n_rows,)
    gross_sold: FloatArray  # (n_draws,), prices of the units sold, not discounted
    orders: FloatArray  # (n_draws,), parcels: a pack is one
    units_sold: FloatArray  # (n_draws,)
    sold_worth: FloatArray  # (n_rows, n_draws), prices of the units sold, discounted
    sold_orders: FloatArray  # (n_rows, n_draws), orders, discounted
    leftover_worth: FloatArray  # (n_rows, n_draws), prices of the units left over that bring anything, discounted
    leftover_units: FloatArray  # (n_rows, n_draws), those units, discounted
    minutes_sorting: FloatArray  # (n_draws,)
    listing_first: FloatArray  # (n_draws,), minutes of listings of their own, assorted units and packs included
    listing_repeat: FloatArray  # (n_draws,), minutes of further units that need no photos of their own
    listing_used: FloatArray  # (n_draws,), minutes of further units that do
    minutes_packing: FloatArray  # (n_draws,)

    def __add__(self, other: "Components") -> "Components":
        """Two slices of one lot together."""
        mine, theirs = self.rows.tuples(), other.rows.tuples()
        if mine == theirs:
            return replace(self, **{name: getattr(self, name) + getattr(other, name) for name in _SUMS + _BY_ROW})
        rows = sorted(set(mine) | set(theirs))
        return self._over(rows, mine) + other._over(rows, theirs)

    def _over(self, rows: list[tuple[str, int, bool]], mine: list[tuple[str, int, bool]]) -> "Components":
        """The same sums over more rows, nothing in those it lacks."""
        at = [rows.index(one) for one in mine]
        spread = {name: np.zeros((len(rows), len(self.orders))) for name in _BY_ROW}
        for name, wide in spread.items():
            wide[at] = getattr(self, name)
        named = Rows.of(rows)
        return replace(self, cost_key=named.cost_key, fate=named.fate, packed=named.packed, **spread)

    @property
    def rows(self) -> Rows:
        """What the sums are split by."""
        return Rows(self.cost_key, self.fate, self.packed)

    @property
    def minutes_listing(self) -> FloatArray:
        """All listing minutes of each draw, shape (n_draws,)."""
        return self.listing_first + self.listing_repeat + self.listing_used

    @property
    def hours(self) -> FloatArray:
        """All hours of each draw, shape (n_draws,)."""
        return (self.minutes_sorting + self.minutes_listing + self.minutes_packing) / 60

    def cash(self, costs: SellingCosts, shade: float = 1.0) -> FloatArray:
        """Cash proceeds of each draw [whole minor units], shape (n_draws,); `shade` multiplies every unit price.

        `costs` are those of `rows`.
        """
        leftover_share = self.leftover_share(costs)
        price_part = (costs.net_share * costs.price_factor) @ self.sold_worth
        price_part += (costs.net_share * leftover_share) @ self.leftover_worth
        order_part = costs.order_costs @ self.sold_orders
        order_part += (costs.order_costs * leftover_share) @ self.leftover_units
        whole: FloatArray = np.rint(shade * price_part - order_part)  # half-even, as everywhere
        return whole

    def leftover_share(self, costs: SellingCosts) -> FloatArray:
        """Share of the net price that each row's leftovers bring, shape (n_rows,); 0 where selling costs eat the price.

        Lines drawn under `costs` with nothing to bring are left out already: this is for reading under other costs.
        """
        worth = costs.net_share * self.leftover_worth.mean(axis=1)
        eaten = worth < costs.order_costs * self.leftover_units.mean(axis=1) * (1.0 - _ROUNDING)
        return np.where(eaten, 0.0, costs.leftover_share)

    def after_pay(self, costs: SellingCosts, shade: float, hourly_pay: float) -> FloatArray:
        """Proceeds after pay of each draw [whole minor units], shape (n_draws,); `hourly_pay` in minor units."""
        whole: FloatArray = np.rint(self.cash(costs, shade) - hourly_pay * self.hours)
        return whole

    def arrays(self) -> Arrays:
        """Plain arrays to store."""
        return {field.name: getattr(self, field.name) for field in fields(self)}

    @staticmethod
    def from_arrays(arrays: Arrays) -> "Components":
        """What `arrays` gave.

        Raises
        ------
        KeyError
            If an array is missing: the arrays are of another form.
        """
        return Components(**{field.name: arrays[field.name] for field in fields(Components)})


_ROUNDING = 1e-9  # of sums of draws
_BY_ROW = ("sold_worth", "sold_orders", "leftover_worth", "leftover_units")
_SUMS = tuple(field.name for field in fields(Components) if field.name not in ("cost_key", "fate", "packed", *_BY_ROW))
