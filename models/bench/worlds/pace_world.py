"""An invented shop whose pace is known: every product has its own buyers, and some listings have not sold yet.

Identical units sell first in, first out to one stream of buyers, in whatever condition they are.
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from models.bench.worlds.catalogue import NEW, Catalogue
from models.bench.worlds.paces import PaceShape, Seasons, drawn_truth
from models.bench.worlds.rows import DAY_ZERO, Outcome, line_rows, sales_rows
from models.bench.worlds.shape import TOPS
from models.values.arrays import BoolArray, FloatArray, IntArray
from models.values.lines import Lines
from models.values.sales import Sales
from models.values.streams import stream

PRICE_SD = 0.15  # of asking prices of one item
PRICE_REACH = 2.0


@dataclass(frozen=True)
class PaceLot:
    """Different products offered at the end of the history; arrays of shape (n_lines,)."""

    lines: Lines
    product: IntArray
    known: BoolArray  # listed before
    price: FloatArray  # what is asked for a unit [minor units]
    rate: FloatArray  # sales a day of buyers' time that its kind expects


class PaceWorld:
    """Goods, listings and sales are drawn once."""

    def __init__(self, shape: PaceShape) -> None:
        self.shape = shape
        self.goods = Catalogue(shape.goods)
        rng = stream(shape.seed, "bench pace", str(shape.listings))
        self.truth = drawn_truth(rng, int(self.goods.brand.max()) + 1)
        self.seasons = Seasons(self.truth.wave, shape.days)
        self.frailty = rng.standard_gamma(self.truth.shape, self.goods.n_products) / self.truth.shape
        self._listed(rng)

    @property
    def until(self) -> np.datetime64:
        """Last day of the history."""
        return DAY_ZERO + self.shape.days

    def _listed(self, rng: np.random.Generator) -> None:
        goods, rows = self.goods, self.shape.listings
        self.product = rng.choice(goods.own, rows, p=goods.popular / goods.popular.sum())
        odd = rng.choice(6, rows, p=[0.3, 0.25, 0.2, 0.15, 0.0, 0.1])
        self.condition = np.where(rng.random(rows) < 0.85, goods.usual[self.product], odd)
        self.listed = np.sort(rng.uniform(0.0, self.shape.days, rows))
        self.price = _asked(goods.level(self.product, self.condition) + rng.normal(0, PRICE_SD, rows))
        self.rate = self._rate(self.product, self.condition, self.price)
        self._sell(rng.exponential(size=rows) / (self.rate * self.frailty[self.product]))

    def _sell(self, waits: FloatArray) -> None:
        """One unit after the other of a product, in buyers' time; what that time expected of each product."""
        top = self.goods.top[self.product]
        listed = self.seasons.time(top, self.listed)
        end = self.seasons.time(top, np.full(len(top), float(self.shape.days)))
        sold = np.empty(len(top))
        free: dict[int, float] = {}
        self.expected, self.sales = np.zeros(self.goods.n_products), np.zeros(self.goods.n_products)
        for row, product in enumerate(self.product.tolist()):  # listings come in the order of their days
            begins = max(listed[row], free.get(product, 0.0))
            free[product] = sold[row] = begins + waits[row]
            self.expected[product] += self.rate[row] * max(min(sold[row], end[row]) - begins, 0.0)
            self.sales[product] += sold[row] <= end[row]
        self.sold = self.seasons.day(top, sold)

    def _rate(self, product: IntArray, condition: IntArray, price: FloatArray) -> FloatArray:
        goods, truth = self.goods, self.truth
        level = np.clip(np.log(price) - self._middle[goods.top[product]], -PRICE_REACH, PRICE_REACH)
        kind = truth.top[goods.top[product]] + truth.sub[goods.sub[product]] + truth.brand[goods.brand[product]]
        return np.asarray(np.exp(truth.ln_base + kind + truth.condition[condition] + truth.slope * level))

    @cached_property
    def _middle(self) -> FloatArray:
        """Ln middle price of each top category."""
        level, top = self.goods.level(np.arange(self.goods.own), self.goods.usual[: self.goods.own]), self.goods.top
        own = top[: self.goods.own]
        return np.array([np.median(level[own == one] if np.any(own == one) else level) for one in range(TOPS)])

    def history(self) -> Sales:
        """Every listing as known on the last day."""
        rows = len(self.product)
        told = Outcome(
            tag=np.full(rows, np.nan), price=self.price, listed=self.listed, sold=self.sold,
            fetched=self.sold <= self.shape.days, lot=np.full(rows, -1), single=np.zeros(rows, dtype=np.bool_),
        )  # fmt: skip
        return replace(sales_rows(self.goods, self.product, self.condition, told), asking_price=self.price)

    def lot(self, number: int, lines: int, quantity: int) -> PaceLot:
        """So many different products, half of them listed before; fewer where the shop has not listed as many."""
        rng = stream(self.shape.seed, "bench pace lot", f"{self.shape.listings} {number}")
        seen = np.unique(self.product)
        half = min(lines // 2, len(seen))
        known = rng.choice(seen, half, replace=False)
        never = np.setdiff1d(np.arange(self.goods.own + NEW), seen)
        product = np.concatenate([known, rng.choice(never, half, replace=False)])
        lines = len(product)
        condition = self.goods.usual[product]
        price = _asked(self.goods.level(product, condition))
        return PaceLot(
            lines=line_rows(self.goods, product, condition, np.full(lines, quantity), np.full(lines, np.nan)),
            product=product, known=np.isin(product, known), price=price, rate=self._rate(product, condition, price),
        )  # fmt: skip

    def buyers_time(self, lot: PaceLot, days: float) -> FloatArray:
        """Buyers' time of each line from the end of the history on."""
        now, top = np.full(len(lot.product), float(self.shape.days)), self.goods.top[lot.product]
        return self.seasons.time(top, now + days) - self.seasons.time(top, now)

    def sold_by(self, lot: PaceLot, days: float) -> FloatArray:
        """True chance that one unit sells, own stock aside.

        For one who knows the world and has seen the history, but cannot see a product's own luck.
        """
        shape = self.truth.shape + self.sales[lot.product]
        rate = self.truth.shape + self.expected[lot.product]
        return np.asarray(-np.expm1(-shape * np.log1p(lot.rate * self.buyers_time(lot, days) / rate)))

    def units_sold(self, lot: PaceLot, days: float, rng: np.random.Generator) -> FloatArray:
        """What becomes of a lot: units of each line sold within so many days, own stock first."""
        left = self.buyers_time(lot, days)
        unsold = np.flatnonzero(self.sold > self.shape.days)
        for at, product in enumerate(lot.product.tolist()):
            own = self.rate[unsold[self.product[unsold] == product]] * self.frailty[product]
            left[at] -= (rng.exponential(size=len(own)) / own).sum()
        possible = rng.poisson(np.maximum(left, 0.0) * lot.rate * self.frailty[lot.product])
        return np.minimum(possible, lot.lines.quantity).astype(np.float64)


def _asked(ln_price: FloatArray) -> FloatArray:
    return np.maximum(1.0, np.round(np.exp(ln_price)))
