"""What does a unit fetch on a day?  The hidden truth that a model has to find again.

ln price = .9 ln tag + base + category + product + condition - .38 if bulk + lot + season + drift + noise.
"""

import datetime as dt
import math
import random
from dataclasses import dataclass

from goods import Category, Product, normal, source

START, AS_OF, END = dt.date(2023, 7, 1), dt.date(2026, 7, 1), dt.date(2026, 9, 30)
DAYS = (END - START).days + 1
BASE, BULK, YEARLY_TREND = -0.17, -0.38, -0.03
WORTH = {"sealed": 0.0, "opened": -0.15, "works": -0.32, "worn": -0.62, "untested": -0.55, "salvage": -1.4}
NOISE = {"sealed": 0.17, "opened": 0.19, "works": 0.21, "worn": 0.26, "untested": 0.30, "salvage": 0.38}


@dataclass
class Unit:
    """One sellable piece and what becomes of it."""

    product: Product
    condition: str
    lot: str  # blank: a single find
    source: str
    shock: float
    cost: float
    listed: dt.date
    minutes: float
    listing: int = 0
    sold: dt.date | None = None
    price: float = 0.0
    order: int = 0
    with_it: int = 0  # further units of the same order and price


def day_of(day: int) -> dt.date:
    """The date `day` days after the first."""
    return START + dt.timedelta(days=day)


class Market:
    """Prices of the day: a slow walk of the whole market and of each top category, and the seasons."""

    def __init__(self) -> None:
        rng = source("market")
        self._walks = {key: self._walk(rng, sd) for key, sd in [("", 0.035)] + [(top, 0.025) for top in self._tops()]}

    @staticmethod
    def _tops() -> list[str]:
        return ["Kitchen", "Home", "Garden", "Toys", "Tools", "Electronics"]

    @staticmethod
    def _walk(rng: random.Random, quarterly_sd: float) -> list[float]:
        level, levels = 0.0, []
        for _ in range(DAYS):
            level += quarterly_sd / math.sqrt(91) * normal(rng)
            levels.append(level)
        return levels

    def season(self, category: Category, day: int) -> float:
        """Cosine of the season, -1 to 1; 0 for goods without one."""
        if not category.peak:
            return 0.0
        return math.cos(2 * math.pi * (day_of(day).timetuple().tm_yday - category.peak) / 365.25)

    def price(self, unit: Unit, day: int, rng: random.Random) -> float:
        """What the unit fetches on that day [major units]."""
        category = unit.product.category
        top = category.name.split(" > ")[0]
        drift = YEARLY_TREND * day / 365.25 + self._walks[""][day] + self._walks[top][day]
        level = 0.9 * math.log(unit.product.tag) + BASE + category.worth + unit.product.worth + WORTH[unit.condition]
        bulk = BULK if unit.lot else 0.0
        season = 0.1 * self.season(category, day)
        log_price = level + bulk + unit.shock + season + drift + NOISE[unit.condition] * normal(rng)
        return max(1.99, round(math.exp(log_price) * 2) / 2 - 0.01)
