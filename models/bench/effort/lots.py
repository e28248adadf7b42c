"""Lots that a seller of known minutes is offered, and what listing each of them really took."""

from dataclasses import dataclass, replace

import numpy as np

from models.bench.effort.world import STRANGE, SUBS, Goods, Seller, paths, titles
from models.values.arrays import BoolArray, FloatArray, IntArray, texts
from models.values.lines import Lines
from models.values.streams import stream

ASSORTED = 0.04  # share of lines that are many different goods
KNOWN = 0.4  # share of lines that repeat goods of the history


@dataclass(frozen=True)
class EffortLot:
    """One lot."""

    lines: Lines
    minutes: FloatArray  # (n,), true mean minutes of each line
    strange: BoolArray  # (n,), of a kind that the seller never lists
    hours: float  # what all of it took


def lot_of(seller: Seller, number: int) -> EffortLot:
    """The lot of that number."""
    rng = stream(seller.shape.seed, "bench effort lot", f"{seller.shape.rows} {number}")
    n = int(rng.integers(20, 61))
    goods = _goods(rng, seller, n)
    assorted = rng.random(n) < ASSORTED
    goods = replace(goods, quantity=np.where(assorted, np.maximum(goods.quantity, 4), goods.quantity))
    minutes = _minutes(seller, goods, assorted)
    shared = np.exp(rng.normal(0, seller.lot_sd) - seller.lot_sd**2 / 2)
    spent = float(minutes @ seller.noise(rng, n)) * shared / 60.0
    lines = replace(
        Lines.blank(n), description=titles(goods.product), category=paths(goods.sub),
        condition=goods.condition.astype(np.int8), quantity=goods.quantity, assorted=assorted, brand=texts([""] * n),
    )  # fmt: skip
    return EffortLot(lines, minutes, goods.sub >= SUBS - STRANGE, spent)


def _goods(rng: np.random.Generator, seller: Seller, n: int) -> Goods:
    """Goods of two or three kinds mostly, some of which the seller never listed; an item may stand in several lines."""
    focus = rng.choice(SUBS, 3, replace=False)
    sub = np.where(rng.random(n) < 0.7, rng.choice(focus, n), rng.integers(0, SUBS, n))
    product = 1_000_000 + rng.integers(0, 2 * n, n) + 1000 * sub
    condition = rng.choice(6, n, p=[0.35, 0.2, 0.2, 0.12, 0.08, 0.05])
    known = rng.random(n) < KNOWN
    row = rng.integers(0, len(seller.week), n)
    own = seller.goods
    sealed, used = rng.geometric(0.3, n), np.where(rng.random(n) < 0.3, rng.integers(2, 7, n), 1)
    condition = np.where(known, own.condition[row], condition)
    quantity: IntArray = np.where(condition == 0, sealed, used)
    return Goods(np.where(known, own.sub[row], sub), np.where(known, own.product[row], product), condition, quantity)


def _minutes(seller: Seller, goods: Goods, assorted: BoolArray) -> FloatArray:
    """An item is listed once; each of its lines bears the share of its units, further units of their own."""
    item = (goods.product * 8 + goods.condition) * 2 + assorted
    _, of = np.unique(item, return_inverse=True)
    units = np.bincount(of, weights=goods.quantity)[of]
    quantity = goods.quantity.astype(np.float64)
    own = np.where(assorted, quantity, quantity / units)
    return np.asarray(own * seller.of_first(goods) + (quantity - own) * seller.of_further(goods))
