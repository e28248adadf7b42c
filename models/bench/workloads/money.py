"""Money: over many worlds, do lots bring what was expected of them?  Ratio of sums, never of logs."""

from models.bench.figures import Figure, Row, Table
from models.bench.plan import Plan
from models.bench.tasks import Results, Task
from models.bench.trial import Trial, run_trial
from models.bench.workloads.price import LOT_SDS
from models.bench.worlds.shape import Shape

FIRST_SEED = 1001  # other worlds than those of the line prices
_SECONDS = {50: 0.8, 300: 1.0}


def trials(plan: Plan, sales: int, lot_sd: float) -> list[Trial]:
    """Half of the worlds have calm lots, half hard ones."""
    seeds = range(FIRST_SEED, FIRST_SEED + plan.money_worlds[sales] // len(LOT_SDS))
    return [Trial(Shape(seed=seed, n_sales=sales, lot_sd=lot_sd), plan.lots, False) for seed in seeds]


def tasks(plan: Plan) -> list[Task]:
    """One task a world."""
    return [
        Task(run_trial, trial, _SECONDS[sales], f"money, {sales:,} sales")
        for sales in plan.money_worlds
        for lot_sd in LOT_SDS
        for trial in trials(plan, sales, lot_sd)
    ]


def tables(plan: Plan, results: Results) -> list[Table]:
    """One row a size: both kinds of lots together carry the bar."""
    rows = []
    for sales in plan.money_worlds:
        by_sd = {sd: [results[trial] for trial in trials(plan, sales, sd)] for sd in LOT_SDS}
        worlds = [world for own in by_sd.values() for world in own]
        figures = {"ratio": Figure.of([world["clean/money/ours"] for world in worlds], "money")}
        for lot_sd, own in by_sd.items():
            figures[f"lot sd {lot_sd:.2f}"] = Figure.of([world["clean/money/ours"] for world in own])
        figures["oracle"] = Figure.of([world["clean/money/oracle"] for world in worlds])
        rows.append(Row((f"{sales:,}",), figures))
    return [Table("Money: sum actual / sum expected", ("sales",), rows, (f"{plan.lots} lots a world.",))]
