"""A synthetic shop with known truth, for tests of prices: Zipf brands, lot shocks, drift, items that repeat."""

from dataclasses import dataclass, replace

import numpy as np

from models.values.arrays import FloatArray, IntArray, texts
from models.values.lines import Lines
from models.values.sales import Sales
from models.values.streams import stream

DAY_ZERO = 19_000  # days since 1970


@dataclass(frozen=True)
class Shape:
    """How the world is made; sds in log units."""

    seed: int = 1
    n_sales: int = 1000
    n_products: int = 1500
    n_brands: int = 60
    n_subs: int = 24
    lot_sd: float = 0.15
    noise_sd: float = 0.2
    item_sd: float = 0.2
    market_sd: float = 0.08
    wrong_tags: float = 0.0
    no_tags: float = 0.1
    days: int = 700
    lots_named: bool = True
    bulk: bool = True


class World:
    """Hidden truth; `history` and `lot` are what a shop sees of it."""

    def __init__(self, shape: Shape) -> None:
        self.shape = shape
        rng = self.rng = stream(shape.seed, "world")
        s, n = shape, shape.n_products
        self.sub = rng.integers(0, s.n_subs, n)
        weights = 1 / np.arange(1, s.n_brands + 1)
        self.brand = rng.choice(s.n_brands, n, p=weights / weights.sum())
        sub_tag, brand_tag = rng.normal(3.5, 0.5, s.n_subs), rng.normal(0, 0.4, s.n_brands)
        pair_tag = rng.normal(0, 0.2, (s.n_brands, s.n_subs))
        self.words = rng.integers(0, 150, (n, 4))
        word_price = rng.normal(0, 0.08, 150)
        own = sub_tag[self.sub] + brand_tag[self.brand] + pair_tag[self.brand, self.sub] + rng.normal(0, 0.35, n)
        self.true_tag = own + np.log(100)
        sub_level, brand_level = rng.normal(0, 0.2, s.n_subs), rng.normal(0, 0.25, s.n_brands)
        pair = rng.normal(0, 0.1, (s.n_brands, s.n_subs))
        self.worth = (
            np.log(0.45) + 0.92 * self.true_tag + 0.08 * np.log(4000) + sub_level[self.sub] + brand_level[self.brand]
            + pair[self.brand, self.sub] + word_price[self.words].sum(1) + rng.normal(0, s.item_sd, n)
        )  # fmt: skip
        self.condition_level = np.array([0.0, -0.12, -0.35, -0.7, -0.7, -1.2])
        quarters = s.days // 91 + 4
        self.market = np.cumsum(rng.normal(0, s.market_sd, quarters))
        self.top_market = np.cumsum(rng.normal(0, s.market_sd / 2, (6, quarters)), axis=1)
        self.usual = rng.choice([0, 1, 2, 3], n, p=[0.4, 0.3, 0.2, 0.1])

    def expected(self, product: IntArray, condition: IntArray, day: FloatArray) -> FloatArray:
        """Ln price without lot shock and noise."""
        grid = np.arange(len(self.market)) * 91.0
        found = self.worth[product] + self.condition_level[condition] + np.interp(day, grid, self.market)
        tops = self.sub[product] % 6
        for top in range(6):
            of_top = tops == top
            found[of_top] += np.interp(day[of_top], grid, self.top_market[top])
        return found

    def tags(self, product: IntArray) -> FloatArray:
        """Tags as claimed [minor units]."""
        rng, s = self.rng, self.shape
        tag = np.exp(self.true_tag[product] + rng.normal(0, 0.03, len(product)))
        wrong = rng.random(len(product)) < s.wrong_tags
        tag[wrong] *= np.exp(rng.uniform(-3, 3, wrong.sum()))
        tag[rng.random(len(product)) < s.no_tags] = np.nan
        return np.round(tag)

    def history(self, known_products: IntArray | None = None) -> Sales:
        """Sold history of the first `days` days."""
        rng, s, n = self.rng, self.shape, self.shape.n_sales
        pool = np.arange(s.n_products * 2 // 3) if known_products is None else known_products
        product = rng.choice(pool, n)
        condition = np.where(rng.random(n) < 0.8, self.usual[product], rng.integers(0, 4, n))
        n_lots = max(2, n // 40)
        lot = rng.integers(0, n_lots, n)
        shock = rng.normal(0, s.lot_sd, n_lots)
        day = np.clip(lot / n_lots * (s.days - 60) + rng.integers(0, 60, n), 0, s.days - 1).astype(float)
        single = (rng.random(n) < 0.2) & s.bulk
        mean = self.expected(product, condition, day) + np.where(single, 0.3, shock[lot])
        price = np.maximum(np.round(np.exp(mean + rng.normal(0, s.noise_sd, n))), 1.0)
        named = texts(
            [f"lot {one}" if s.lots_named and not alone else "" for one, alone in zip(lot, single, strict=True)]
        )
        return make_sales(
            title=[self.title(one) for one in product], brand=[f"brand{one}" for one in self.brand[product]],
            category=[self.category(one) for one in product], condition=condition, tag_each=self.tags(product),
            sold_price=price, sold_on=(DAY_ZERO + day).astype("datetime64[D]"), lot=named,
            sourced=np.where(single, 0, 1) if s.bulk else np.full(n, -1),
        )  # fmt: skip

    def lot(self, n_lines: int, known_share: float = 0.4, ahead: float = 60.0) -> tuple[Lines, FloatArray, FloatArray]:
        """A manifest, each line's actual mean unit price [minor units] and its expected ln price."""
        rng, s = self.rng, self.shape
        cut = s.n_products * 2 // 3
        known = rng.random(n_lines) < known_share
        product = np.where(known, rng.integers(0, cut, n_lines), rng.integers(cut, s.n_products, n_lines))
        condition = np.where(rng.random(n_lines) < 0.8, self.usual[product], rng.integers(0, 4, n_lines))
        quantity = rng.geometric(0.4, n_lines)
        mean = self.expected(product, condition, np.full(n_lines, s.days + ahead))
        shocked = mean + rng.normal(0, s.lot_sd)
        actual = np.array([
            np.exp(shocked[i] + rng.normal(0, s.noise_sd, quantity[i])).mean() for i in range(n_lines)
        ])  # fmt: skip
        lines = make_lines(
            description=[self.title(one) for one in product], brand=[f"brand{one}" for one in self.brand[product]],
            category=[self.category(one) for one in product], condition=condition, quantity=quantity,
            tag_each=self.tags(product),
        )  # fmt: skip
        return lines, actual, mean

    def title(self, product: int) -> str:
        """Words that tell the product, with its number."""
        return " ".join(f"word{word}" for word in self.words[product]) + f" model{product}"

    def category(self, product: int) -> str:
        """Path of the product's kind."""
        return f"top{self.sub[product] % 6} > sub{self.sub[product]}"


def make_sales(**given: object) -> Sales:
    """Sales with the columns given; the rest is blank."""
    return replace(Sales.blank(len(given["title"])), **_typed(given))  # type: ignore[arg-type]


def make_lines(**given: object) -> Lines:
    """Lines with the columns given; the rest is blank."""
    return replace(Lines.blank(len(given["description"])), **_typed(given))  # type: ignore[arg-type]


def _typed(columns: dict[str, object]) -> dict[str, object]:
    found = {}
    for name, value in columns.items():
        if isinstance(value, list) and value and isinstance(value[0], str):
            value = texts(value)
        found[name] = np.asarray(value)
        if name in ("condition", "sourced"):
            found[name] = found[name].astype(np.int8)
    return found
