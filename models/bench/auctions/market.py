"""Several shops in one invented market: the same goods, tags and prices, but each with sales of its own.

A shop deals in some of the market's brands; lots hold a few brands each, whoever has sold them before.
"""

from functools import cached_property

import numpy as np

from models.bench.worlds.catalogue import Catalogue
from models.bench.worlds.lots import TestLot
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import Dealer, World
from models.values.arrays import BoolArray, FloatArray, IntArray
from models.values.sales import Sales
from models.values.streams import stream

DEALT = 0.6  # share of the market's brands that a shop deals in
BRANDS_OF_LOT = 10
APPEAL_SD = 1.6  # log units, of how often a product sells: a few things sell all the time


class SharedMarket:
    """One world; `history` is what one of its shops knows, `lots` are offered to all of them."""

    def __init__(self, shape: Shape) -> None:
        self.shape = shape
        self.world = World(shape)

    @property
    def goods(self) -> Catalogue:
        """All goods of the market."""
        return self.world.goods

    @cached_property
    def appeal(self) -> FloatArray:
        """How often each product sells, any unit."""
        draws = stream(self.shape.seed, "bench appeal").standard_normal(self.goods.n_products)
        return np.asarray(np.exp(APPEAL_SD * draws))

    def brands_of(self, shop: str) -> BoolArray:
        """True for the brands that a shop deals in."""
        n_brands = int(self.goods.brand.max()) + 1
        return stream(self.shape.seed, "bench dealt", shop).random(n_brands) < DEALT

    def history(self, shop: str, n_sales: int) -> Sales:
        """The sold history of one shop at the cut-off."""
        products = np.flatnonzero(self.brands_of(shop)[self.goods.brand])
        return World(self.shape, Dealer(shop, n_sales, products, self.appeal[products])).history()

    def lots(self, count: int) -> list[TestLot]:
        """Lots offered at the cut-off; their groups say nothing here, since every shop knows other goods."""
        return [self._lot(stream(self.shape.seed, "bench auction lot", str(number))) for number in range(count)]

    def _lot(self, rng: np.random.Generator) -> TestLot:
        n_lines = int(rng.integers(20, 61))
        product = self._few_kinds(rng, n_lines)
        odd = rng.choice(6, n_lines, p=[0.3, 0.25, 0.2, 0.15, 0.0, 0.1])
        condition = np.where(rng.random(n_lines) < 0.85, self.goods.usual[product], odd)
        return self.world.offered(rng, product, condition, np.zeros(n_lines, dtype=np.int64), self.shape.days)

    def _few_kinds(self, rng: np.random.Generator, n_lines: int) -> IntArray:
        """Products of a few brands, mostly of two top categories."""
        goods = self.goods
        brands, of_product = np.unique(goods.brand, return_inverse=True)
        size = np.sqrt(np.bincount(of_product, self.appeal))
        few = rng.choice(brands, BRANDS_OF_LOT, replace=False, p=size / size.sum())
        focus = np.isin(goods.top, rng.choice(6, 2, replace=False))
        weight = self.appeal * np.isin(goods.brand, few) * np.where(focus, 6.0, 1.0)
        return np.asarray(rng.choice(goods.n_products, n_lines, p=weight / weight.sum()), dtype=np.int64)
