"""Hand-picked singles beside bulk goods: does a lot get the price of bulk goods?"""

from dataclasses import dataclass, replace

import numpy as np

from models.bench.figures import Figure, Row, Table
from models.bench.plan import Plan
from models.bench.shop import fitted, priced
from models.bench.tasks import Results, Task
from models.bench.worlds.world import DAY_ZERO
from models.values.arrays import IntArray, TextArray, texts
from models.values.lines import Lines
from models.values.sales import Sales
from models.values.streams import stream

SINGLES, BULK = (800, 40.0), (60, 22.0)  # sales, mean price in major units
DAYS, PRODUCTS, BRANDS, LINES = 360, 120, 12, 30
GOODS_SD, NOISE_SD = 0.25, 0.30  # between products, and of one sale


@dataclass(frozen=True)
class BulkWorld:
    """One draw of such a history."""

    seed: int


def run_bulk(world: BulkWorld) -> dict[str, float]:
    """Mean of a bulk line and spread of a lot, with and without flags."""
    rng = stream(world.seed, "bench bulk")
    worth = rng.normal(0, GOODS_SD, PRODUCTS)
    product = rng.integers(0, PRODUCTS * 2 // 3, SINGLES[0] + BULK[0])
    single = np.arange(len(product)) < SINGLES[0]
    level = np.where(single, np.log(SINGLES[1]), np.log(BULK[1])) + np.log(100)
    log_price = worth[product] + rng.normal(0, NOISE_SD, len(product))
    for kind in (single, ~single):  # so that each kind's mean price is what the name of the workload says
        log_price[kind] -= np.log(np.mean(np.exp(log_price[kind])))
    day = DAY_ZERO + rng.integers(0, DAYS, len(product))
    told = replace(
        Sales.blank(len(product)), title=_titles(product), brand=_brands(product),
        category=texts(["things > gadgets"] * len(product)), sold_price=np.round(np.exp(level + log_price)),
        sold_on=day, listed_on=day, sourced=np.where(single, 0, 1).astype(np.int8),
    )  # fmt: skip
    plain = replace(told, sourced=np.full(len(product), -1, dtype=np.int8))
    lines = _lot(rng.permutation(PRODUCTS)[:LINES])
    mean, sd = _answer(told, lines)
    plain_mean, plain_sd = _answer(plain, lines)
    return {"mean": mean, "sd": sd, "mean, no flags": plain_mean, "sd, no flags": plain_sd}


def _answer(sales: Sales, lines: Lines) -> tuple[float, float]:
    lot = priced(fitted(sales, DAY_ZERO + DAYS), lines, DAY_ZERO + DAYS + 45)
    return float(lot.unit_price.mean.mean()) / 100, lot.log_sd


def _lot(product: IntArray) -> Lines:
    kind = texts(["things > gadgets"] * len(product))
    return replace(Lines.blank(len(product)), description=_titles(product), brand=_brands(product), category=kind)


def _titles(product: IntArray) -> TextArray:
    return texts([f"gadget m{one}" for one in product])


def _brands(product: IntArray) -> TextArray:
    return texts([f"brand{one % BRANDS}" for one in product])


def _worlds(plan: Plan) -> list[BulkWorld]:
    return [BulkWorld(seed) for seed in range(1, plan.bulk_worlds + 1)]


def tasks(plan: Plan) -> list[Task]:
    """One task a world."""
    return [Task(run_bulk, world, 1.5, "bulk") for world in _worlds(plan)]


def tables(plan: Plan, results: Results) -> list[Table]:
    """One row."""
    worlds = [results[world] for world in _worlds(plan)]
    figures = {
        "bulk line's mean": Figure.of([world["mean"] for world in worlds], "bulk mean"),
        "lot sd": Figure.of([world["sd"] for world in worlds]),
        "mean, no flags": Figure.of([world["mean, no flags"] for world in worlds]),
        "lot sd, no flags": Figure.of([world["sd, no flags"] for world in worlds]),
        "spread ratio": Figure.of([world["sd, no flags"] / world["sd"] for world in worlds], "bulk spread"),
    }
    notes = ("800 hand-picked singles at a mean of 40, 60 bulk sales at 22, no tags, lots unnamed.",)
    return [Table("Bulk: hand-picked singles beside bulk goods", ("history",), [Row(("860 sales",), figures)], notes)]
