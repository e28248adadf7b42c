"""A lot of an invented world: what a bidder sees of it, and what it will turn out to fetch."""

from dataclasses import dataclass

import numpy as np

from models.bench.worlds.market import own_quarters, shared_quarters
from models.bench.worlds.shape import Shape
from models.values.arrays import FloatArray, IntArray
from models.values.lines import Lines

GROUPS = ("known", "seen", "unseen")  # item of the history; new product of a brand sold before; brand never sold


@dataclass(frozen=True)
class TestLot:
    """Arrays of shape (n_lines,) unless said; the truth is hidden from every method but the oracle."""

    __test__ = False  # not a test class

    lines: Lines
    days_ahead: float  # from the cut-off to the expected sale
    group: IntArray  # index in GROUPS
    top: IntArray
    line_of_unit: IntArray  # (n_units,)
    price: FloatArray  # (n_units,) what each unit fetches [minor units]
    level: FloatArray  # ln price that the oracle expects, today's market and the coming season counted
    noise_sd: FloatArray

    @property
    def actual(self) -> float:
        """Gross total [minor units]."""
        return float(self.price.sum())

    @property
    def first_price(self) -> FloatArray:
        """What one unit of each line fetches [minor units]."""
        _, first = np.unique(self.line_of_unit, return_index=True)
        return self.price[first]


@dataclass(frozen=True)
class LogNormal:
    """A forecast of a total."""

    mean: float  # [minor units]
    log_var: float

    @property
    def middle(self) -> float:
        """Ln of its median."""
        return float(np.log(self.mean) - self.log_var / 2)

    @property
    def sd(self) -> float:
        """Log standard deviation."""
        return float(np.sqrt(self.log_var))


def oracle_total(lot: TestLot, shape: Shape) -> LogNormal:
    """The total as one expects it who knows every parameter but not the lot's shock, the way ahead and single sales."""
    drift = shape.market_sd**2 + shape.top_sd**2
    noise = lot.noise_sd**2 + drift * own_quarters()
    log_var = shape.lot_sd**2 + drift * shared_quarters() + noise
    line = lot.lines.quantity * np.exp(lot.level + log_var / 2)
    weight = line / line.sum()
    by_top = np.bincount(lot.top, weight)
    shared = shape.lot_sd**2 + shared_quarters() * (shape.market_sd**2 + shape.top_sd**2 * float(by_top @ by_top))
    own = float(weight**2 @ (np.expm1(noise) / lot.lines.quantity))
    return LogNormal(float(line.sum()), shared + own)
