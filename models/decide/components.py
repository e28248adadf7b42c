"""What is kept of a lot's draws, so that other terms can be read without drawing again?

Sums over lines, per draw, before any selling cost, rivals' shade or pay: those are applied on reading.
"""

from dataclasses import dataclass, fields, replace

import numpy as np

from models.decide.costs import SellingCosts
from models.values.arrays import Arrays, FloatArray, TextArray


@dataclass(frozen=True)
class Components:
    """Arrays of shape (n_draws,), or (n_keys, n_draws) where split by cost key.  Money in minor units, unshaded.

    Discounted means brought to the day of payment.
    """

    keys: TextArray  # (n_keys,), cost keys
    gross_sold: FloatArray  # (n_draws,), prices of the units sold, not discounted
    orders: FloatArray  # (n_draws,)
    units_sold: FloatArray  # (n_draws,)
    sold_worth: FloatArray  # (n_keys, n_draws), prices of the units sold, discounted
    sold_orders: FloatArray  # (n_keys, n_draws), orders, discounted
    leftover_worth: FloatArray  # (n_keys, n_draws), prices of the units left over, discounted
    leftover_units: FloatArray  # (n_keys, n_draws), discounted
    minutes_sorting: FloatArray  # (n_draws,)
    minutes_listing: FloatArray  # (n_draws,)
    minutes_packing: FloatArray  # (n_draws,)

    def __add__(self, other: "Components") -> "Components":
        """Two slices of one lot together; both must have its cost keys."""
        if self.keys.tolist() != other.keys.tolist():
            raise ValueError("components of one lot must share its cost keys")
        return replace(self, **{name: getattr(self, name) + getattr(other, name) for name in _SUMS})

    @property
    def hours(self) -> FloatArray:
        """All hours of each draw, shape (n_draws,)."""
        return (self.minutes_sorting + self.minutes_listing + self.minutes_packing) / 60

    def cash(self, costs: SellingCosts, shade: float = 1.0) -> FloatArray:
        """Cash proceeds of each draw [whole minor units], shape (n_draws,); `shade` multiplies every unit price."""
        price_part = costs.net_share @ self.sold_worth
        price_part += (costs.net_share * costs.leftover_share) @ self.leftover_worth
        order_part = costs.order_costs @ self.sold_orders
        order_part += (costs.order_costs * costs.leftover_share) @ self.leftover_units
        whole: FloatArray = np.rint(shade * price_part - order_part)  # half-even, as everywhere
        return whole

    def after_pay(self, costs: SellingCosts, shade: float, hourly_pay: float) -> FloatArray:
        """Proceeds after pay of each draw [whole minor units], shape (n_draws,); `hourly_pay` in minor units."""
        whole: FloatArray = np.rint(self.cash(costs, shade) - hourly_pay * self.hours)
        return whole

    def arrays(self) -> Arrays:
        """Plain arrays to store."""
        return {field.name: getattr(self, field.name) for field in fields(self)}

    @staticmethod
    def from_arrays(arrays: Arrays) -> "Components":
        """What `arrays` gave."""
        return Components(**{field.name: arrays[field.name] for field in fields(Components)})


_SUMS = tuple(field.name for field in fields(Components) if field.name != "keys")
