"""An invented shop with known truth: its sold history up to a cut-off, and lots offered then."""

from dataclasses import dataclass

import numpy as np

from models.bench.worlds.catalogue import NEW, Catalogue
from models.bench.worlds.claims import claimed_tags
from models.bench.worlds.lots import TestLot
from models.bench.worlds.market import Market
from models.bench.worlds.rows import DAY_ZERO, Outcome, line_rows, sales_rows
from models.bench.worlds.shape import AHEAD, BULK_EFFECT, Shape
from models.values.arrays import BoolArray, FloatArray, IntArray
from models.values.sales import Sales
from models.values.streams import stream

__all__ = ["DAY_ZERO", "World"]
DAYS_TO_SELL = 40.0


@dataclass(frozen=True)
class Dealer:
    """One of several shops in one world: what it deals in, and how much it has sold."""

    key: str  # its own stream; "" is the world's only shop
    n_sales: int
    products: IntArray
    appeal: FloatArray  # of each, any unit


class World:
    """Goods, market and listings are drawn once; `history` and `lots` are what a shop sees of them."""

    def __init__(self, shape: Shape, dealer: Dealer | None = None) -> None:
        self.shape = shape
        self.goods = Catalogue(shape)
        self.market = Market(shape)
        self.dealer = dealer or Dealer("", shape.n_sales, np.arange(self.goods.own), self.goods.popular)
        self._listed()

    def _listed(self) -> None:
        """Draw every listing of the shop's life, its sale day and the price it would fetch then."""
        s, dealer = self.shape, self.dealer
        rng = stream(s.seed, "bench listings", dealer.key)
        rows = int(dealer.n_sales * 1.6) + 40
        self.product = dealer.products[rng.choice(len(dealer.products), rows, p=dealer.appeal / dealer.appeal.sum())]
        odd = rng.choice(6, rows, p=[0.3, 0.25, 0.2, 0.15, 0.0, 0.1])
        self.condition = np.where(rng.random(rows) < 0.85, self.goods.usual[self.product], odd)
        self.single = rng.random(rows) < s.singles
        n_lots = max(3, int(rows * (1 - s.singles) / s.lot_lines))
        self.lot = rng.integers(0, n_lots, rows)
        bought = np.sort(rng.uniform(-30, s.days - 5, n_lots))
        self.listed = np.where(self.single, rng.uniform(-30, s.days - 1, rows), bought[self.lot])
        self.listed += rng.uniform(0, 15, rows)
        self.sold = np.where(
            rng.random(rows) < s.unsold, np.inf, np.floor(self.listed + rng.exponential(DAYS_TO_SELL, rows))
        )
        shock = rng.normal(0, 1, n_lots)[self.lot] * s.lot_sd
        day = np.minimum(self.sold, s.days + 150.0)
        level = self.goods.level(self.product, self.condition) + self.market.at(self.goods.top[self.product], day)
        noise = rng.normal(0, 1, rows) * self.goods.noise_sd(self.product, self.condition)
        self.price = np.maximum(np.round(np.exp(level + np.where(self.single, -BULK_EFFECT, shock) + noise)), 1.0)
        self.kept = self.listed >= 0
        done = np.flatnonzero(self.kept & (self.sold <= s.days))
        self.kept[rng.permutation(done)[dealer.n_sales :]] = False
        rng = stream(s.seed, "bench tags", dealer.key)
        self.tag = claimed_tags(rng, self.goods.true_tag[self.product], s.wrong_tags, s.no_tags)

    def history(self, cutoff: float | None = None) -> Sales:
        """What the shop knows at the end of a day; the usual one holds `n_sales` sales and its unsold listings."""
        cutoff = self.shape.days if cutoff is None else cutoff
        known = np.flatnonzero((self.listed <= cutoff) & self.kept)
        fetched = self.sold[known] <= cutoff
        named = np.where(self.single[known] | (not self.shape.lots_named), -1, self.lot[known])
        return sales_rows(
            self.goods, self.product[known], self.condition[known],
            Outcome(self.tag[known], self.price[known], self.listed[known], self.sold[known], fetched, named,
                    self.single[known]),
        )  # fmt: skip

    def lots(self, count: int, cutoff: float | None = None) -> list[TestLot]:
        """Lots offered at the cut-off."""
        cutoff = self.shape.days if cutoff is None else cutoff
        return [
            self._lot(stream(self.shape.seed, "bench lot", f"{cutoff:g} {number}"), cutoff) for number in range(count)
        ]

    def _lot(self, rng: np.random.Generator, cutoff: float) -> TestLot:
        n_lines = int(rng.integers(20, 61))
        product, condition, group = self._drawn_lines(rng, n_lines, cutoff)
        return self.offered(rng, product, condition, group, cutoff)

    def offered(
        self, rng: np.random.Generator, product: IntArray, condition: IntArray, group: IntArray, cutoff: float
    ) -> TestLot:
        """A lot of these goods, offered at a cut-off: quantities, tags as claimed, and what every unit will fetch."""
        n_lines = len(product)
        quantity = rng.geometric(0.4, n_lines)
        top = self.goods.top[product]
        of_unit = np.repeat(np.arange(n_lines), quantity)
        day = cutoff + rng.uniform(*AHEAD, len(of_unit))
        plain = self.goods.level(product, condition)
        noise_sd = self.goods.noise_sd(product, condition)
        shock = rng.normal(0, 1) * self.shape.lot_sd
        noise = rng.normal(0, 1, len(of_unit)) * noise_sd[of_unit]
        price = np.exp(plain[of_unit] + self.market.at(top[of_unit], day) + shock + noise)
        tag = claimed_tags(rng, self.goods.true_tag[product], self.shape.wrong_tags, self.shape.no_tags)
        now, ahead = np.full(n_lines, cutoff), sum(AHEAD) / 2
        season = self.market.season(top, now + ahead) - self.market.season(top, now)
        return TestLot(
            lines=line_rows(self.goods, product, condition, quantity, tag),
            days_ahead=ahead,
            group=group,
            top=top,
            line_of_unit=of_unit,
            price=price,
            level=plain + self.market.at(top, now) + season,
            noise_sd=noise_sd,
        )

    def _drawn_lines(
        self, rng: np.random.Generator, n_lines: int, cutoff: float
    ) -> tuple[IntArray, IntArray, IntArray]:
        """Product, condition and group of each line; a lot is goods of few kinds, its unknown brands are few."""
        goods = self.goods
        focus = np.isin(np.arange(6), rng.choice(6, 2, replace=False))
        group = np.where(rng.random(n_lines) < rng.uniform(0.3, 0.5), 0, rng.integers(1, 3, n_lines))
        sold = np.flatnonzero((self.sold <= cutoff) & self.kept)
        row = sold[_focused(rng, focus[goods.top[self.product[sold]]], n_lines)]
        known_brands = np.unique(goods.brand[self.product[sold]])
        new = goods.own + np.flatnonzero(np.isin(goods.brand[goods.own : goods.own + NEW], known_brands))
        strange = np.flatnonzero(goods.foreign)
        few = rng.choice(np.unique(goods.brand[strange]), 4, replace=False)
        strange = strange[np.isin(goods.brand[strange], few)]
        product = np.choose(group, [self.product[row], new[_focused(rng, focus[goods.top[new]], n_lines)],
                                    strange[_focused(rng, focus[goods.top[strange]], n_lines)]])  # fmt: skip
        odd = rng.choice(6, n_lines, p=[0.3, 0.25, 0.2, 0.15, 0.0, 0.1])
        fresh = np.where(rng.random(n_lines) < 0.85, goods.usual[product], odd)
        return product, np.where(group == 0, self.condition[row], fresh), group


def _focused(rng: np.random.Generator, inside: BoolArray, count: int) -> IntArray:
    """Places drawn with replacement, those inside the lot's focus six times as often."""
    weight = np.where(inside, 6.0, 1.0)
    return rng.choice(len(inside), count, p=weight / weight.sum())
