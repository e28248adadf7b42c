"""How do an invented world's prices move?  Weekly random walks of the market and of each top category, and a season."""

import numpy as np

from models.bench.worlds.shape import AHEAD, TOPS, Shape
from models.values.arrays import FloatArray, IntArray
from models.values.streams import stream

WEEK, QUARTER, YEAR = 7.0, 91.0, 365.25


class Market:
    """Paths over the whole history and what comes after it."""

    def __init__(self, shape: Shape) -> None:
        rng = stream(shape.seed, "bench market")
        self.shape = shape
        weeks = int((shape.days + 200) / WEEK) + 2
        step = np.sqrt(WEEK / QUARTER)
        self.all = np.cumsum(rng.normal(0, shape.market_sd * step, weeks))
        self.by_top = np.cumsum(rng.normal(0, shape.top_sd * step, (TOPS, weeks)), axis=1)
        self.wave = rng.normal(0, 0.05, (TOPS, 2))

    def at(self, top: IntArray, day: FloatArray) -> FloatArray:
        """Ln price level of each row's kind on its day."""
        grid = np.arange(len(self.all)) * WEEK
        found = np.interp(day, grid, self.all)
        for kind in range(TOPS):
            rows = top == kind
            found[rows] += np.interp(day[rows], grid, self.by_top[kind])
        return found + self.season(top, day)

    def season(self, top: IntArray, day: FloatArray) -> FloatArray:
        """The part that is known ahead."""
        angle = 2 * np.pi * day / YEAR
        return np.asarray(self.wave[top, 0] * np.sin(angle) + self.wave[top, 1] * np.cos(angle))


def shared_quarters() -> float:
    """Variance, in quarters, that the average of a random walk over many evenly spread sale days has."""
    first, last = AHEAD
    return (first + (last - first) / 3) / QUARTER


def own_quarters() -> float:
    """What a single sale day has beside that."""
    return sum(AHEAD) / 2 / QUARTER - shared_quarters()
