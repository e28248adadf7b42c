"""Which goods exist in an invented world, what does their tag really say, and what are they worth?"""

from functools import cached_property

import numpy as np

from models.bench.worlds.shape import BULK_EFFECT, SUBS, TOPS, Shape
from models.values.arrays import BoolArray, FloatArray, IntArray
from models.values.streams import stream

NEW = 1500  # products of the shop's brands that it has not sold
FOREIGN = 1500  # products of brands that it never sold
FOREIGN_BRANDS = 60
WORDS_OF_SUB, PLAIN_WORDS = 30, 60
_BY_CONDITION = np.array([0.0, -0.15, -0.3, -0.6, -0.6, -1.1])
_NOISE_BY_CONDITION = np.array([0.9, 1.0, 1.0, 1.2, 1.2, 1.4])


class Catalogue:
    """Products by number: those the shop sells, new ones of its brands, then those of brands it never sold."""

    def __init__(self, shape: Shape) -> None:
        self.shape = shape
        rng = stream(shape.seed, "bench goods")
        self.own = int(0.6 * shape.n_sales) + 10
        self.n_products = self.own + NEW + FOREIGN
        n_brands = shape.brands + FOREIGN_BRANDS
        self.brand = self._brands(rng)
        home = rng.integers(0, SUBS, (n_brands, 4))  # a brand makes few kinds of goods
        self.sub = home[self.brand, rng.integers(0, 4, self.n_products)]
        own_words = rng.zipf(1.5, (self.n_products, 3)) % WORDS_OF_SUB + WORDS_OF_SUB * self.sub[:, None]
        plain = WORDS_OF_SUB * SUBS + rng.integers(0, PLAIN_WORDS, (self.n_products, 1))
        self.words = np.concatenate([own_words, plain], axis=1)
        self.says_brand = rng.random(self.n_products) < 0.8
        self.true_tag = self._tags(rng, n_brands)
        self.worth = self._worth(rng, n_brands)
        usual = [0.4, 0.25, 0.2, 0.1, 0.0, 0.05]
        self.usual = rng.choice(6, self.n_products, p=usual)
        self.by_condition = _BY_CONDITION + rng.normal(0, 0.08, (TOPS, 6)) * (_BY_CONDITION != 0)
        self.own_condition = rng.normal(0, 0.08, (self.n_products, 6))  # an item's own way off its product
        self.noise_of_top = np.exp(rng.normal(0, 0.2, TOPS))
        self.popular = rng.gamma(0.7, 1.0, self.own) + 0.05

    @cached_property
    def top(self) -> IntArray:
        """Top category of each product."""
        return np.asarray(self.sub % TOPS, dtype=np.int64)

    @cached_property
    def foreign(self) -> BoolArray:
        """True for products of brands that the shop never sold."""
        return np.asarray(self.brand >= self.shape.brands, dtype=np.bool_)

    def _brands(self, rng: np.random.Generator) -> IntArray:
        zipf = 1 / np.arange(1, self.shape.brands + 1)
        known = rng.choice(self.shape.brands, self.own + NEW, p=zipf / zipf.sum())
        return np.concatenate([known, self.shape.brands + rng.integers(0, FOREIGN_BRANDS, FOREIGN)])

    def _tags(self, rng: np.random.Generator, n_brands: int) -> FloatArray:
        """Ln of the tag each product really carries [ln minor units]; its own part has heavy tails."""
        pair = rng.normal(0, 0.2, (n_brands, SUBS))
        words = rng.normal(0, 0.08, WORDS_OF_SUB * SUBS + PLAIN_WORDS)
        level = rng.normal(3.5, 0.5, SUBS)[self.sub] + rng.normal(0, 0.4, n_brands)[self.brand]
        own = 0.25 * rng.standard_t(4, self.n_products)
        return np.asarray(np.log(100) + level + pair[self.brand, self.sub] + words[self.words].sum(axis=1) + own)

    def _worth(self, rng: np.random.Generator, n_brands: int) -> FloatArray:
        """Ln price of a sealed, hand-picked unit on a market at rest [ln minor units]."""
        slope = rng.normal(0.9, 0.05, SUBS)[self.sub]
        centre = np.log(4000)
        pair = rng.normal(0, 0.12, (n_brands, SUBS))
        words = rng.normal(0, 0.06, WORDS_OF_SUB * SUBS + PLAIN_WORDS)
        level = rng.normal(0, 0.2, SUBS)[self.sub] + rng.normal(0, 0.25, n_brands)[self.brand]
        own = 0.16 * rng.standard_t(5, self.n_products)
        tag = centre + slope * (self.true_tag - centre)
        return np.asarray(np.log(0.6) + tag + level + pair[self.brand, self.sub] + words[self.words].sum(axis=1) + own)

    def level(self, product: IntArray, condition: IntArray) -> FloatArray:
        """Ln price of a unit bought in bulk, market at rest, without lot shock and noise."""
        state = self.by_condition[self.top[product], condition] + self.own_condition[product, condition]
        return np.asarray(self.worth[product] + state + BULK_EFFECT)

    def noise_sd(self, product: IntArray, condition: IntArray) -> FloatArray:
        """Sd of one sale's own noise."""
        factors = self.noise_of_top[self.top[product]] * _NOISE_BY_CONDITION[condition]
        return np.asarray(self.shape.noise_sd * factors)

    def title(self, product: int) -> str:
        """Words of a product and its model number."""
        words = [f"brand{self.brand[product]}"] if self.says_brand[product] else []
        return " ".join([*words, *(f"word{word}" for word in self.words[product]), f"m{product}"])

    def category(self, product: int) -> str:
        """Path of a product's kind."""
        return f"top{self.top[product]} > sub{self.sub[product]}"
