"""Is the closed form of a lot's total what the draws say?  Log quantiles of 5 to 95% against 20,000 draws."""

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtri

from models.bench.figures import Figure, Row, Table
from models.bench.plan import Plan
from models.bench.scores import rms
from models.bench.shop import fitted, priced, total_of
from models.bench.tasks import Results, Task
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import DAY_ZERO, World
from models.estimate.lot_joint import LotPrices
from models.estimate.price_draws import line_price_draws, shared_draws
from models.values.arrays import FloatArray

DRAWN, SEEDS, LOTS = 20_000, (11, 12, 13), 4
LEVELS = np.arange(0.05, 0.951, 0.05)


@dataclass(frozen=True)
class ClosedForm:
    """One world whose lots are drawn."""

    shape: Shape


def run_closed_form(asked: ClosedForm) -> dict[str, float]:
    """Root mean square of the log quantiles' difference over the world's lots."""
    world = World(asked.shape)
    cutoff = DAY_ZERO + asked.shape.days
    shop = fitted(world.history(), cutoff)
    gaps, sds = [], []
    for lot in world.lots(LOTS):
        prices = priced(shop, lot.lines, cutoff + int(lot.days_ahead))
        told = total_of(prices)
        drawn = np.quantile(np.log(_totals(prices)), LEVELS)
        gaps.append(drawn - (told.middle + told.sd * ndtri(LEVELS)))
        sds.append(told.sd)
    return {"rms": rms(np.concatenate(gaps)), "sd": float(np.mean(sds))}


def _totals(prices: LotPrices) -> FloatArray:
    """Totals of 20,000 draws, from as many seeds as that takes."""
    lines = np.arange(len(prices))
    drawn = [prices.quantity @ line_price_draws(prices, shared_draws(prices, seed), lines, seed) for seed in SEEDS]
    return np.concatenate(drawn)[:DRAWN].astype(np.float64)


def _worlds(plan: Plan, sales: int) -> list[ClosedForm]:
    return [ClosedForm(Shape(seed=seed, n_sales=sales)) for seed in range(1, plan.closed_form[sales] + 1)]


def tasks(plan: Plan) -> list[Task]:
    """One task a world."""
    return [
        Task(run_closed_form, world, 6.0 if sales < 3000 else 15.0, f"closed form, {sales:,} sales")
        for sales in plan.closed_form
        for world in _worlds(plan, sales)
    ]


def tables(plan: Plan, results: Results) -> list[Table]:
    """One row a size."""
    rows = []
    for sales in plan.closed_form:
        worlds = [results[world] for world in _worlds(plan, sales)]
        bar = "closed form at 50" if sales == 50 else "closed form"
        figures = {
            "rms of log quantiles": Figure.of([world["rms"] for world in worlds], bar),
            "sd of the ln total": Figure.of([world["sd"] for world in worlds]),
        }
        rows.append(Row((f"{sales:,}",), figures))
    return [Table(f"Closed form against {DRAWN:,} draws, 5 to 95%", ("sales",), rows, (f"{LOTS} lots a world.",))]
