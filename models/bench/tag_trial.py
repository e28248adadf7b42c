"""One world's answers about tags: a single tag ten times too high, a whole manifest marked up, tags that are none."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from models.bench.shop import Shop, fitted, priced
from models.bench.worlds.goods_table import joined, numbered, tagged
from models.bench.worlds.lots import TestLot
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import DAY_ZERO, World
from models.estimate.lot_joint import LotPrices
from models.estimate.research_first import research_first
from models.values.arrays import FloatArray, IntArray
from models.values.lines import Lines
from models.values.sales import Sales
from models.values.streams import stream

FACTORS = (1.5, 3.0, 20.0)
KNOWN = (0, 1, 2, 5)
OWN_SALES = 60
LOTS = 6
Z20 = -0.8416212335729143
Measures = dict[str, float]


@dataclass(frozen=True)
class TagWorld:
    """A fitted shop that has sold one item sixty times, and the lots it looks at."""

    shop: Shop
    history: Sales
    lots: list[TestLot]
    item: Lines  # the item as one line, honestly tagged
    sale_day: np.datetime64

    def price(self, lines: Lines) -> LotPrices:
        """Price a manifest."""
        return priced(self.shop, numbered(lines), self.sale_day)


def run_tag_trial(shape: Shape) -> Measures:
    """Every measure of one world, means over its lots."""
    world = _tag_world(replace(shape, no_tags=0.0))
    found: dict[str, list[float]] = {}
    for number, lot in enumerate(world.lots):
        for key, value in [*_one_line(world, lot), *_manifest(world, lot), *_no_tags(world, lot, number)]:
            found.setdefault(key, []).append(value)
    measures = {key: float(np.mean(values)) for key, values in found.items()}
    worst = max(found["unknown/dearest"])
    return measures | {"no tag": max(found["no tag"]), "unknown/dearest, worst": worst}


def _tag_world(shape: Shape) -> TagWorld:
    world = World(shape)
    history = world.history()
    lots = world.lots(LOTS)
    cutoff = DAY_ZERO + shape.days
    item = _lines(lots[0], "known").take(np.arange(1))
    own = history.take(_often(history, str(item.description[0]), int(item.condition[0])))
    history = joined(history, _sixty(own, shape))
    return TagWorld(fitted(history, cutoff), history, lots, item, cutoff + 45)


def _often(history: Sales, title: str, condition: int) -> IntArray:
    rows = np.flatnonzero((history.title == title) & (history.condition == condition) & history.sold)
    return rows[np.arange(OWN_SALES) % len(rows)]


def _sixty(own: Sales, shape: Shape) -> Sales:
    """Sixty sales of one item around its first one's price, in the last third of the history."""
    rng = stream(shape.seed, "bench sixty sales")
    day = DAY_ZERO + np.sort(rng.integers(shape.days * 2 // 3, shape.days, len(own)))
    price = np.round(own.sold_price[0] * np.exp(rng.normal(0, 0.2, len(own))))
    blank = np.full(len(own), "", dtype=object)
    return replace(
        own, sold_price=price, sold_on=day, listed_on=day - 20, lot=blank, sourced=np.ones(len(own), np.int8)
    )


def _lines(lot: TestLot, group: str) -> Lines:
    return lot.lines.take(lot.group == ("known", "seen", "unseen").index(group))


def _one_line(world: TagWorld, lot: TestLot) -> Iterator[tuple[str, float]]:
    """Tag of one line x10, among honest lines of goods that were sold before."""
    others = _lines(lot, "known")
    for name, line in (("known", world.item), ("unknown", _lines(lot, "unseen").take(np.arange(1)))):
        rest = others.take(others.description != line.description[0])
        honest = world.price(joined(line, rest))
        wrong = world.price(joined(tagged(line, line.tag_each * 10), rest))
        yield f"{name}/mean", float(wrong.unit_price.mean[0] / honest.unit_price.mean[0])
        yield f"{name}/p10", float(wrong.unit_price.p10[0] / honest.unit_price.p10[0])
        if name == "unknown":
            sd = np.sqrt(wrong.log_var[0] + wrong.noise_var[0]), np.sqrt(honest.log_var[0] + honest.noise_var[0])
            yield "unknown/spread", float(sd[0] / sd[1])
            yield "unknown/dearest", float(wrong.unit_price.mean[0]) / _dearest(world.history, str(line.category[0]))
            first = research_first(wrong)
            yield "unknown/first", float(bool(first) and first[0].line == 1)


def _dearest(history: Sales, category: str) -> float:
    """Dearest own sale of the same kind [minor units]; of everything where the kind was never sold."""
    own = history.sold_price[history.sold & (history.category == category)]
    return float(own.max() if len(own) else np.nanmax(history.sold_price))


def _manifest(world: TagWorld, lot: TestLot) -> Iterator[tuple[str, float]]:
    """All tags of a lot times a factor: what becomes of the 20% quantile of its total."""
    known, strange = _lines(lot, "known"), _lines(lot, "unseen")
    _, first = np.unique(known.description.astype(str), return_index=True)
    for count in KNOWN:
        lines = joined(known.take(np.sort(first)[:count]), strange) if count else strange
        honest = _low(world.price(lines))
        for factor in FACTORS:
            yield f"manifest/{factor:g}/{count}", _low(world.price(tagged(lines, lines.tag_each * factor))) / honest


def _low(lot: LotPrices) -> float:
    return float(lot.total.mean * np.exp(-lot.total.log_var / 2 + Z20 * lot.log_sd))


def _no_tags(world: TagWorld, lot: TestLot, number: int) -> Iterator[tuple[str, float]]:
    """0, .01, 999999 and blank on one line of the lot: largest relative difference of its mean."""
    at = number % len(lot.lines)
    found: list[float] = []
    for none in (0.0, 1.0, 99_999_900.0, np.nan):
        tag: FloatArray = lot.lines.tag_each.copy()
        tag[at] = none
        found.append(float(world.price(tagged(lot.lines, tag)).unit_price.mean[at]))
    yield "no tag", max(found) / min(found) - 1
