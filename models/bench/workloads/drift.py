"""A moving market: many cut-offs of a few worlds, each with the shift that its lots share.

A perfect model's single cut-off is all or nothing, since its lots share one shock: none of them is a pass mark.
"""

from dataclasses import dataclass

import numpy as np

from models.bench.figures import Figure, Row, Table
from models.bench.plan import Plan
from models.bench.scores import holds, rms
from models.bench.shift import shift_sd
from models.bench.shop import fitted, priced, total_of
from models.bench.tasks import Results, Task
from models.bench.worlds.lots import oracle_total
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import DAY_ZERO, World

MARKET_SD, TOP_SD = 0.16, 0.08  # a quarter
SALES, DAYS, LOTS = 2000, 1100, 24
FIRST, LAST = 320, 1080  # days of the first and the last cut-off


@dataclass(frozen=True)
class CutOff:
    """One world at one day."""

    shape: Shape
    day: int


def run_cutoff(asked: CutOff) -> dict[str, float]:
    """Coverage of the lots offered that day, and their shift."""
    world = World(asked.shape)
    cutoff = DAY_ZERO + asked.day
    shop = fitted(world.history(asked.day), cutoff)
    lots = world.lots(LOTS, asked.day)
    ours = [priced(shop, lot.lines, cutoff + int(lot.days_ahead)) for lot in lots]
    actual = np.log([lot.actual for lot in lots])
    measures = {"sales": float(shop.model.sales_used), "s": shift_sd(ours)}
    for name, totals in (("ours", map(total_of, ours)), ("oracle", (oracle_total(lot, asked.shape) for lot in lots))):
        middle, sd = np.array([(total.middle, total.sd) for total in totals]).T
        measures[name] = float(holds(actual, middle, sd, 0.8).mean())
        measures[f"{name} shift"] = float(np.mean(actual - middle))
    return measures


def cutoffs(plan: Plan) -> list[list[CutOff]]:
    """Cut-offs by world."""
    worlds, count = plan.drift
    shapes = [
        Shape(seed=seed, n_sales=SALES, market_sd=MARKET_SD, top_sd=TOP_SD, span_days=DAYS)
        for seed in range(1, worlds + 1)
    ]
    return [[CutOff(shape, int(day)) for day in np.linspace(FIRST, LAST, count)] for shape in shapes]


def tasks(plan: Plan) -> list[Task]:
    """One task a cut-off."""
    return [Task(run_cutoff, one, 2.0, "drift") for world in cutoffs(plan) for one in world]


def tables(plan: Plan, results: Results) -> list[Table]:
    """The whole, then every cut-off."""
    worlds = [[results[one] for one in world] for world in cutoffs(plan)]
    score = [[one["ours shift"] / one["s"] for one in world] for world in worlds]
    every = np.concatenate(score)
    figures = {
        "ours 80": Figure.of([float(np.mean([one["ours"] for one in world])) for world in worlds]),
        "oracle 80": Figure.of([float(np.mean([one["oracle"] for one in world])) for world in worlds]),
        "difference": Figure.of(
            [float(np.mean([one["ours"] - one["oracle"] for one in world])) for world in worlds], "drift 80"
        ),
        "rms z, all cut-offs": Figure.of([rms(every)], "drift z"),
        "rms z by world": Figure.of([rms(np.array(own)) for own in score]),
        "inside 95%": Figure.of([float(np.mean(np.abs(every) < 1.96))], "drift 95"),
    }
    listed = [
        _listed(number, one, results[one]) for number, world in enumerate(cutoffs(plan), start=1) for one in world
    ]
    whole = Row((f"{plan.drift[0]} x {plan.drift[1]}",), figures)
    return [
        Table("Drift: market sd .16 a quarter, category .08", ("worlds x cut-offs",), [whole], (f"{LOTS} lots each.",)),
        Table("Drift: every cut-off", ("world", "day"), listed, ("None is a pass mark; z = shift / s.",)),
    ]


def _listed(number: int, asked: CutOff, one: dict[str, float]) -> Row:
    told = {
        "sales": one["sales"], "ours 80": one["ours"], "oracle 80": one["oracle"], "shift": one["ours shift"],
        "s": one["s"], "z": one["ours shift"] / one["s"], "oracle's shift": one["oracle shift"],
    }  # fmt: skip
    return Row((str(number), str(asked.day)), {name: Figure.of([value]) for name, value in told.items()})
