"""Line prices: RMSE of log unit price, items of the history, brands sold before and brands never sold apart."""

from models.bench.figures import Figure, Row, Table
from models.bench.plan import Plan
from models.bench.tasks import Results, Task
from models.bench.trial import METHODS, Measures, Trial, run_trial
from models.bench.worlds.lots import GROUPS
from models.bench.worlds.shape import Shape

LOT_SDS = (0.15, 0.30)
REPORTED_ONLY = 30_000  # sales from which no bar is set
_SECONDS = {50: 8.0, 300: 12.0, 3000: 30.0, 30000: 260.0}


def trials(plan: Plan, sales: int, lot_sd: float) -> list[Trial]:
    """The worlds of one size, with every baseline."""
    seeds = range(1, plan.worlds[sales] + 1)
    return [Trial(Shape(seed=seed, n_sales=sales, lot_sd=lot_sd), plan.lots, True) for seed in seeds]


def tasks(plan: Plan) -> list[Task]:
    """One task a world."""
    return [
        Task(run_trial, trial, _SECONDS[sales], f"price and totals, {sales:,} sales")
        for sales in plan.worlds
        for lot_sd in LOT_SDS
        for trial in trials(plan, sales, lot_sd)
    ]


def tables(plan: Plan, results: Results) -> list[Table]:
    """One table for clean tags, one for wrong ones."""
    return [_table(plan, results, tags) for tags in ("clean", "wrong")]


def _table(plan: Plan, results: Results, tags: str) -> Table:
    rows = [
        _row(sales, lot_sd, kind, tags, [results[trial] for trial in trials(plan, sales, lot_sd)])
        for sales in plan.worlds
        for lot_sd in LOT_SDS
        for kind in GROUPS
    ]
    title = {"clean": "Line prices, clean tags", "wrong": "Line prices, 7% wrong tags"}[tags]
    note = "RMSE of ln unit price; `/` columns are our RMSE against that method's, world by world."
    return Table(title, ("sales", "lot sd", "lines"), rows, (note,))


def _row(sales: int, lot_sd: float, kind: str, tags: str, worlds: list[Measures]) -> Row:
    barred = sales < REPORTED_ONLY

    def rmse(world: Measures, name: str, which: str = tags) -> float:
        return world[f"{which}/rmse/{name}/{kind}"]

    figures = {name: Figure.of([rmse(world, name) for world in worlds]) for name in ("ours", "oracle", *METHODS)}
    for name, bar in (("ridge", f"{tags} / ridge"), ("LightGBM", "/ trees"), ("CatBoost", "/ trees")):
        against = [rmse(world, "ours") / rmse(world, name) for world in worlds]
        figures[f"/ {name}"] = Figure.of(against, bar if barred else "")
    if tags == "wrong":
        cost = [rmse(world, "ours") / rmse(world, "ours", "clean") for world in worlds]
        figures["/ clean"] = Figure.of(cost, "cost of wrong tags" if barred else "")
    return Row((f"{sales:,}", f"{lot_sd:.2f}", kind), figures)
