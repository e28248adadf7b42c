"""Which level of a covariate is this?  Names, their effects, and how much was seen of each."""

from dataclasses import dataclass

import numpy as np

from models.values.arrays import Arrays, BoolArray, FloatArray, IntArray, TextArray, texts
from models.values.categories import top_and_sub

SPREAD = 0.32  # sd of an effect in ln rate, where none was learned
PRICE_REACH = 2.0  # price levels beyond e^2 times the category's median are taken as that


@dataclass(frozen=True)
class Levels:
    """One table: `name` sorted, `effect` its number, `information` in events, `spread` of effects never seen."""

    name: TextArray
    effect: FloatArray
    information: FloatArray
    spread: float = SPREAD

    def effect_of(self, names: TextArray) -> FloatArray:
        """The effect of each name, 0 for one never seen."""
        return self._looked_up(names, self.effect, 0.0)

    def mean_of(self, names: TextArray) -> FloatArray:
        """Ln of the mean factor of each name.

        What data told has its mean at the effect itself; what is only guessed has it half a variance higher.
        """
        sd = self.sd_of(names)
        return self.effect_of(names) + sd**4 / (2.0 * self.spread**2)

    def sd_of(self, names: TextArray) -> FloatArray:
        """Posterior sd of each name's effect; the prior's for one never seen, 0 for a blank."""
        information = self._looked_up(names, self.information, 0.0)
        return np.asarray(np.where(names == "", 0.0, (self.spread**-2.0 + information) ** -0.5))

    def value_of(self, names: TextArray) -> FloatArray:
        """The number of each name, NaN for one never seen."""
        return self._looked_up(names, self.effect, np.nan)

    def flat(self, prefix: str) -> Arrays:
        parts: Arrays = {"name": self.name, "effect": self.effect, "information": self.information}
        return {f"{prefix}.{part}": array for part, array in (parts | {"spread": np.asarray(self.spread)}).items()}

    def _looked_up(self, names: TextArray, values: FloatArray, otherwise: float) -> FloatArray:
        at = dict(zip(self.name.tolist(), values.tolist(), strict=True))
        return np.array([at.get(name, otherwise) for name in names.tolist()], dtype=float)


def from_flat(arrays: Arrays, prefix: str) -> Levels:
    """The table that `Levels.flat` wrote."""
    spread = arrays.get(f"{prefix}.spread", np.asarray(SPREAD))  # older models kept none
    return Levels(
        arrays[f"{prefix}.name"], arrays[f"{prefix}.effect"], arrays[f"{prefix}.information"], float(spread.item())
    )


def no_levels() -> Levels:
    """A table that knows nothing."""
    return Levels(texts([]), np.empty(0), np.empty(0))


def category_keys(categories: TextArray) -> tuple[TextArray, TextArray]:
    """Top, and "top > sub" or "" where the category has one level only.

    Parameters
    ----------
    categories : ndarray of shape (n,)
        As the file has them.

    Returns
    -------
    tuple of two ndarrays of shape (n,)
        Lower case, single spaces.

    Examples
    --------
    >>> top, sub = category_keys(texts(["Home > Lamps", "Toys"]))
    >>> top.tolist(), sub.tolist()
    (['home', 'toys'], ['home > lamps', ''])
    """
    pairs = {category: top_and_sub(category) for category in set(categories.tolist())}
    top = texts([pairs[category][0] for category in categories.tolist()])
    sub = texts([_sub_key(*pairs[category]) for category in categories.tolist()])
    return top, sub


def _sub_key(top: str, sub: str) -> str:
    return "" if sub == top else f"{top} > {sub}"


def brand_keys(brands: TextArray) -> TextArray:
    """Lower case, single spaces.

    Examples
    --------
    >>> brand_keys(texts([" Oak  & Ash"])).tolist()
    ['oak & ash']
    """
    return texts([" ".join(brand.lower().split()) for brand in brands.tolist()])


def price_level(price: FloatArray, median: FloatArray) -> FloatArray:
    """Ln of price over its category's median, within +-2; 0 where either is unknown.

    Parameters
    ----------
    price : ndarray of shape (n,)
        [minor units]; NaN or not above zero counts as unknown.
    median : ndarray of shape (n,)
        ln median price [ln minor units], NaN unknown.

    Returns
    -------
    ndarray of shape (n,)
        Unit free.

    Examples
    --------
    >>> price_level(np.array([200.0, np.nan]), np.log([100.0, 100.0])).round(3)
    array([0.693, 0.   ])
    """
    known: BoolArray = np.isfinite(price) & (price > 0) & np.isfinite(median)
    level = np.log(np.where(known, price, 1.0)) - np.where(known, median, 0.0)
    return np.asarray(np.where(known, np.clip(level, -PRICE_REACH, PRICE_REACH), 0.0))


def counted(group: IntArray, weight: FloatArray, n: int = 0) -> FloatArray:
    """Sum of `weight` by group, of shape (n,) or up to the last group."""
    return np.bincount(group, weights=weight, minlength=n).astype(np.float64)
