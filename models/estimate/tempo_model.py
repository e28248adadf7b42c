"""How fast do goods of a kind sell?  A fitted table of rates, as plain arrays.

One buyer stream a product: while at least one unit is in stock, units sell as a Poisson process of rate u x mu a day.
mu comes from the kind of goods (category, brand, condition, price level, month of the year); u is the product's own
frailty, Gamma(shape, shape) with mean 1.  A product with d sales where mu expected H of them has the posterior
u ~ Gamma(shape + d, shape + H).
"""

from dataclasses import dataclass, field, fields
from typing import Any

import numpy as np

from models.estimate.tempo_levels import Levels, from_flat
from models.values.arrays import Arrays, FloatArray, IntArray, TextArray
from models.values.conditions import CONDITIONS


@dataclass(frozen=True)
class TempoModel:
    """Every field is an array, a number or a table of levels; effects are in ln of sales a day."""

    declared: bool  # True: the history cannot tell; the settings' never_sells_share and days_to_sell are used
    seasonal: bool  # True: the history spans 400 days or more, so `month_effect` was fitted
    sold_units: int  # sold units whose start and end are known
    unsold_units: int  # units still unsold at the end of what is known, with a known start
    shape: float  # of the gamma frailty
    ln_base: float  # ln sales a day of a product with no level known
    base_information: float  # events' worth of information in the whole history
    top: Levels
    sub: Levels  # keyed "top > sub"; empty where categories have one level
    brand: Levels
    condition_effect: FloatArray  # (6,), by condition code
    month_effect: FloatArray  # (12,), January first; averages to a factor of 1 over the year
    price_slope: float  # a unit of ln(price / median price of its category)
    price_category: Levels  # `effect` holds ln median sold price [ln minor units]; keyed by top and by "top > sub"
    sales: FloatArray  # (n_products,), d: units sold in known stock days
    expected: FloatArray  # (n_products,), H: units mu expected in those days
    stock: FloatArray  # (n_products,), own unsold units
    condition_sd: FloatArray = field(
        default_factory=lambda: np.zeros(len(CONDITIONS))
    )  # (6,), sd of `condition_effect`
    price_slope_sd: float = 0.0  # sd of `price_slope`
    begins: float = float("nan")  # first day counted [days since 1970]: earlier sales are missing; NaN: none are
    earlier: float = 0.0  # share of the listings that started before it
    least_sales: FloatArray = field(default_factory=lambda: np.zeros(0))  # (n_products,) or empty; where declared only:
    least_days: FloatArray = field(default_factory=lambda: np.zeros(0))  # own sales and the days they took at most

    def arrays(self) -> Arrays:
        """Named plain arrays, for storage.

        Returns
        -------
        dict of str to ndarray
            Numbers as arrays without dimension, levels as "name.field".
        """
        made: Arrays = {}
        for one in fields(self):
            value = getattr(self, one.name)
            made.update(value.flat(one.name) if isinstance(value, Levels) else {one.name: np.asarray(value)})
        return made

    @staticmethod
    def from_arrays(arrays: Arrays) -> "TempoModel":
        """The model that `arrays` was made from.

        Raises
        ------
        KeyError
            If an array is missing.
        """
        plain: dict[str, Any] = {}
        for one in fields(TempoModel):
            if one.name in _LEVELS:
                plain[one.name] = from_flat(arrays, one.name)
            elif one.name in arrays or one.name not in _LATER:
                array = arrays[one.name]
                plain[one.name] = array if array.ndim else array.item()
        return TempoModel(**plain)

    def ln_rate(self, kinds: "Kinds") -> FloatArray:
        """Ln of the sales a day that the kind of goods expects, averaged over the year.

        Parameters
        ----------
        kinds : Kinds
            What each of n goods is.

        Returns
        -------
        ndarray of shape (n,)
            ln mu [ln 1/day].
        """
        known = np.where(kinds.condition >= 0, kinds.condition, 0)
        by_condition = np.where(kinds.condition >= 0, self.condition_effect[known], 0.0)
        by_level = self.top.mean_of(kinds.top) + self.sub.mean_of(kinds.sub) + self.brand.mean_of(kinds.brand)
        return np.asarray(self.ln_base + by_level + by_condition + self.price_slope * kinds.price_level)


_LEVELS = ("top", "sub", "brand", "price_category")
_LATER = (
    "condition_sd",
    "price_slope_sd",
    "begins",
    "earlier",
    "least_sales",
    "least_days",
)  # models of an older version kept none


@dataclass(frozen=True)
class Kinds:
    """What n goods are, as far as their pace is concerned."""

    top: TextArray
    sub: TextArray  # "top > sub", "" where the category has one level
    brand: TextArray
    condition: IntArray  # index in CONDITIONS, -1 unknown
    price_level: FloatArray  # ln(price / median price of the category), 0 unknown
