"""Lot totals: do the stated ranges hold, how sharp are they, and what does sharing between lines bring?"""

from models.bench.figures import Figure, Row, Table
from models.bench.plan import Plan
from models.bench.tasks import Results, Task
from models.bench.trial import LEVELS, METHODS, Measures, Trial, run_trial
from models.bench.workloads import price
from models.bench.workloads.price import LOT_SDS, REPORTED_ONLY
from models.bench.worlds.shape import Shape

CALM = 0.15
SMALLEST = 50
_SECONDS = {50: 0.6, 300: 0.8, 3000: 2.5, 30000: 40.0}


def unnamed(plan: Plan, sales: int, lot_sd: float) -> list[Trial]:
    """The same worlds where purchases have no names; our own forecast only."""
    seeds = range(1, plan.worlds[sales] + 1)
    return [Trial(Shape(seed=seed, n_sales=sales, lot_sd=lot_sd, lots_named=False), plan.lots, False) for seed in seeds]


def tasks(plan: Plan) -> list[Task]:
    """Worlds with unnamed lots; the named ones are those of the line prices."""
    return [
        Task(run_trial, trial, _SECONDS[sales], f"totals, lots unnamed, {sales:,} sales")
        for sales in plan.worlds
        for lot_sd in LOT_SDS
        for trial in unnamed(plan, sales, lot_sd)
    ]


def tables(plan: Plan, results: Results) -> list[Table]:
    """Coverage with both kinds of lots, then sharpness."""
    kinds = {"named": price.trials, "unnamed": unnamed}
    coverage, scores = [], []
    for sales in plan.worlds:
        for lot_sd in LOT_SDS:
            for name, trials in kinds.items():
                worlds = [results[trial] for trial in trials(plan, sales, lot_sd)]
                labels = (f"{sales:,}", f"{lot_sd:.2f}", name)
                coverage.append(Row(labels, _coverage(worlds, sales, lot_sd, name)))
                if name == "named":
                    scores.append(Row(labels[:2], _scores(worlds, sales)))
    return [
        Table("Lot totals: share of lots inside the stated range", ("sales", "lot sd", "lots"), coverage,
              ("sd columns are the mean stated log sd of a total.",)),
        Table("Lot totals: CRPS of the ln total, and absolute errors of point baselines", ("sales", "lot sd"), scores,
              ("`/` columns are our CRPS against that, world by world.",)),
    ]  # fmt: skip


def bar_of(level: int, sales: int, lot_sd: float, lots: str) -> str:
    """Which bar the coverage of one level is held against, "" for none."""
    calm = {80: "calm 80", 95: "calm 95"}
    hard = {80: "hard 80 at 50" if sales == SMALLEST else "hard 80", 95: "hard 95"}
    if sales >= REPORTED_ONLY:
        return ""
    if lots == "unnamed":
        return "hard 80 unnamed" if lot_sd > CALM and level == LEVELS[0] else ""
    return (hard if lot_sd > CALM else calm).get(level, "")


def _coverage(worlds: list[Measures], sales: int, lot_sd: float, lots: str) -> dict[str, Figure]:
    found = {}
    for name in ("ours", "oracle", "independent"):
        for level in LEVELS:
            bar = bar_of(level, sales, lot_sd, lots) if name == "ours" else ""
            held = [world[f"clean/holds {level}/{name}"] for world in worlds]
            found[f"{name} {level}"] = Figure.of(held, bar)
    for name in ("ours", "oracle"):
        found[f"{name} sd"] = Figure.of([world[f"clean/sd/{name}"] for world in worlds])
    return found


def _scores(worlds: list[Measures], sales: int) -> dict[str, Figure]:
    barred = sales < REPORTED_ONLY

    def ours_against(key: str, bar: str) -> Figure:
        return Figure.of([world["clean/crps/ours"] / world[key] for world in worlds], bar if barred else "")

    found = {name: Figure.of([world[f"clean/crps/{name}"] for world in worlds]) for name in ("ours", "oracle")}
    found["independent"] = Figure.of([world["clean/crps/independent"] for world in worlds])
    found["/ independent"] = ours_against("clean/crps/independent", "crps / independent")
    for name in METHODS:
        found[f"/ {name}"] = ours_against(f"clean/error/{name}", "crps / point")
    found["/ oracle"] = ours_against("clean/crps/oracle", "")
    return found
