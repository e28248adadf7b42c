"""What makes goods of an invented shop sell soon or late?  Drawn anew in every world; none of it is seen by a method.

How much each thing matters differs from world to world, so that no fixed amount of shrinkage is right everywhere.
"""

from dataclasses import dataclass

import numpy as np

from models.bench.worlds.shape import SUBS, TOPS, Shape
from models.values.arrays import FloatArray, IntArray

YEAR = 365.25
AHEAD = 4000  # days after the history whose seasons are known
_BY_CONDITION = np.array([0.0, -0.1, -0.2, -0.4, -0.4, -0.8])


@dataclass(frozen=True)
class PaceShape:
    """One world with so many listings, sold and unsold."""

    seed: int
    listings: int

    @property
    def goods(self) -> Shape:
        """Products, brands and prices as the worlds of prices have them."""
        return Shape(seed=self.seed, n_sales=self.listings)

    @property
    def days(self) -> int:
        """Days of history."""
        return self.goods.days


@dataclass(frozen=True)
class Truth:
    """Effects in ln of sales a day."""

    ln_base: float  # ln sales a day of usual goods
    top: FloatArray  # (TOPS,)
    sub: FloatArray  # (SUBS,)
    brand: FloatArray
    condition: FloatArray  # (6,)
    slope: float  # a unit of ln(price / middle price of its category)
    wave: FloatArray  # (TOPS, 2), sine and cosine of the year
    shape: float  # of the gamma frailty of a product


def drawn_truth(rng: np.random.Generator, brands: int) -> Truth:
    """Days to sell of 25 to 90, spreads of .1 to .6, seasons from none to strong."""
    wave = rng.uniform(0.0, 0.4) * rng.normal(0, 0.7, 2) + rng.uniform(0.0, 0.2) * rng.normal(0, 0.7, (TOPS, 2))
    return Truth(
        ln_base=-float(np.log(rng.uniform(25.0, 90.0))),
        top=rng.uniform(0.2, 0.6) * rng.normal(size=TOPS),
        sub=rng.uniform(0.1, 0.4) * rng.normal(size=SUBS),
        brand=rng.uniform(0.1, 0.4) * rng.normal(size=brands),
        condition=rng.uniform(0.0, 1.5) * _BY_CONDITION,
        slope=float(rng.uniform(-0.6, 0.1)),
        wave=wave,
        shape=float(np.exp(rng.uniform(np.log(0.7), np.log(4.0)))),
    )


class Seasons:
    """The buyers' own time of each top category: it runs faster in season."""

    def __init__(self, wave: FloatArray, days: int) -> None:
        self._days = np.arange(0.0, days + AHEAD)
        angle = 2 * np.pi * self._days / YEAR
        pace = np.exp(wave[:, :1] * np.sin(angle) + wave[:, 1:] * np.cos(angle))
        self._times = np.cumsum(pace, axis=1) - pace

    def time(self, top: IntArray, day: FloatArray) -> FloatArray:
        """Buyers' time at a day."""
        return self._read(top, day, [(self._days, own) for own in self._times])

    def day(self, top: IntArray, time: FloatArray) -> FloatArray:
        """Day of a buyers' time, infinite beyond what is known."""
        found = self._read(top, time, [(own, self._days) for own in self._times])
        return np.where(time > self._times[top, -1], np.inf, found)

    @staticmethod
    def _read(top: IntArray, at: FloatArray, curves: list[tuple[FloatArray, FloatArray]]) -> FloatArray:
        found = np.zeros(len(at))
        for kind, (x, y) in enumerate(curves):
            rows = top == kind
            found[rows] = np.interp(at[rows], x, y)
        return found
