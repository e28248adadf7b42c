"""A synthetic shop with known rates, for tests of time to sell: streams a product, some listings still unsold."""

from dataclasses import dataclass

import numpy as np

from models.values.arrays import FloatArray, IntArray, texts
from models.values.lines import Lines
from models.values.sales import Sales
from models.values.streams import stream

START = np.datetime64("2024-01-01")
BLANK_TEXTS = ("brand", "sku", "gtin", "lot", "source", "place", "listing_ref", "order_ref")
BLANK_MONEY = ("tag_each", "asking_price", "cost", "fees", "shipping_charged", "shipping_paid", "refunded")


def days(offsets: object) -> np.ndarray:
    """Days after START; NaN is blank."""
    numbers = np.asarray(offsets, dtype=float)
    made = START + np.where(np.isfinite(numbers), numbers, 0).astype("timedelta64[D]")
    return np.where(np.isfinite(numbers), made, np.datetime64("NaT", "D"))


def sales_of(listed: object, sold: object, **given: object) -> Sales:
    """Rows listed and sold on days after START (NaN: unsold); other columns as given, else blank."""
    ends = np.asarray(sold, dtype=float)
    n = len(ends)
    plain: dict[str, object] = {name: texts([""] * n) for name in BLANK_TEXTS}
    plain |= {name: np.full(n, np.nan) for name in (*BLANK_MONEY, "listing_minutes")}
    plain |= {
        "row": np.arange(n) + 2, "title": texts([f"thing {i}" for i in range(n)]), "category": texts(["toys"] * n),
        "condition": np.zeros(n, dtype=np.int8), "quantity": np.ones(n, dtype=np.int64),
        "sold_price": np.where(np.isfinite(ends), 1000.0, np.nan), "listed_on": days(listed), "sold_on": days(ends),
        "first_listed_on": days(np.full(n, np.nan)), "ended_on": days(np.full(n, np.nan)),
        "sourced": np.full(n, -1, dtype=np.int8),
    }  # fmt: skip
    return Sales(**(plain | given))  # type: ignore[arg-type]


def lines_of(quantity: object, **given: object) -> Lines:
    """Lines of so many units; other columns as given, else blank."""
    units = np.asarray(quantity, dtype=np.int64)
    n = len(units)
    plain: dict[str, object] = {
        "no": np.arange(n) + 1, "row": np.arange(n) + 2, "description": texts([f"new {i}" for i in range(n)]),
        "brand": texts([""] * n), "category": texts(["toys"] * n), "condition": np.zeros(n, dtype=np.int8),
        "quantity": units, "tag_each": np.full(n, np.nan), "sku": texts([""] * n), "gtin": texts([""] * n),
        "weight_kg": np.full(n, np.nan), "pallet": texts([""] * n), "assorted": np.zeros(n, dtype=bool),
    }  # fmt: skip
    return Lines(**(plain | given))  # type: ignore[arg-type]


@dataclass(frozen=True)
class World:
    """A history and the truth behind it."""

    sales: Sales
    product: IntArray
    n_products: int
    rate: FloatArray  # (n_products,), sales a day
    category: list[str]  # of each product
    until: np.datetime64


def world(seed: int, n_products: int = 400, span: int = 500, shape: float = 1.5, units: float = 1.0) -> World:
    """Each product listed once, 1 + Poisson(units - 1) units, on a random day; rates mu x Gamma(shape, shape)."""
    source = stream(seed, "tempo_world")
    of = source.integers(0, 4, n_products)
    mu = np.exp(np.log(1 / 60) + np.array([-0.6, -0.2, 0.2, 0.6]))[of]
    rate = mu * source.standard_gamma(shape, n_products) / shape
    depth = 1 + source.poisson(units - 1.0, n_products)
    product = np.repeat(np.arange(n_products), depth)
    listed = np.repeat(source.integers(0, span, n_products), depth).astype(float)
    waits = source.standard_exponential(len(product)) / rate[product]
    ends = listed + np.repeat(source.random(n_products), depth)  # listed and sold at some hour of a calendar day
    for p in range(n_products):
        rows = np.flatnonzero(product == p)
        ends[rows] += np.cumsum(waits[rows])
    ends = np.where(ends < span + 1, np.floor(ends), np.nan)
    names = [f"kind {k}" for k in of]
    sales = sales_of(listed, ends, category=texts([names[p] for p in product]))
    return World(sales, product, n_products, rate, names, START + np.timedelta64(span, "D"))
