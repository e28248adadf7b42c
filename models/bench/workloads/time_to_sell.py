"""How soon goods sell, on worlds whose pace is known: chances of a sale in time, and units sold of deep items."""

from models.bench.figures import Figure, Row, Table
from models.bench.pace_timing import PaceTiming, run_pace_timing
from models.bench.pace_trial import (
    DEEP_LINES,
    DEEP_UNITS,
    GROUPS,
    HORIZON,
    LINES,
    METHODS,
    WITHIN,
    Measures,
    PaceTrial,
    run_paces,
)
from models.bench.plan import Plan
from models.bench.tasks import Results, Task
from models.bench.worlds.paces import PaceShape

_SECONDS = {50: 0.5, 300: 0.8, 3000: 2.5}
_LOTS = 4  # of deep items, a world
_FEW = 50  # listings, for which the bar is a quarter below


def _trials(plan: Plan, listings: int) -> list[PaceTrial]:
    seeds = range(1, plan.pace_worlds[listings] + 1)
    return [PaceTrial(PaceShape(seed, listings), _LOTS) for seed in seeds]


def _timings(plan: Plan) -> list[PaceTiming]:
    return [PaceTiming(3000, 10_000, 5), *([PaceTiming(100_000, 10_000, 1)] if plan.large else [])]


def tasks(plan: Plan) -> list[Task]:
    """One task a world; times alone."""
    worlds = [
        Task(run_paces, trial, _SECONDS[listings], f"time to sell, {listings:,} listings")
        for listings in plan.pace_worlds
        for trial in _trials(plan, listings)
    ]
    return worlds + [
        Task(run_pace_timing, one, one.sales / 1000, f"time to sell: speed, {one.sales:,} sales", True)
        for one in _timings(plan)
    ]


def tables(plan: Plan, results: Results) -> list[Table]:
    """Chances, deep items, speed."""
    told = {listings: [results[trial] for trial in _trials(plan, listings)] for listings in plan.pace_worlds}
    chances = [
        Row((f"{listings:,}", str(days), lines), _chance(worlds, listings, days, lines))
        for listings, worlds in told.items()
        for days in WITHIN
        for lines in GROUPS
    ]
    deep = [Row((f"{listings:,}",), _deep(worlds)) for listings, worlds in told.items()]
    speed = [Row((f"{one.sales:,}", f"{one.lines:,}"), _speed(results[one])) for one in _timings(plan)]
    return [
        Table("Time to sell: chance that one unit sells within so many days", ("listings", "days", "lines"), chances,
              ("RMSE of the chance told against the true one, which knows the world and has seen the history, but not",
               f"a product's own luck; up to {LINES} lines, half of them of products listed before.",
               "`/` columns are our RMSE against that method's, world by world; bars count all lines.")),
        Table(f"Time to sell: {DEEP_UNITS} units of an item on top of own stock, {HORIZON} days", ("listings",), deep,
              ("Share of items in the middle 80% of what was told, ties of counts split at random.",
               f"{_LOTS} lots of {DEEP_LINES} items a world. `within p10 to p90`: both ends count, as one reads it.")),
        Table("Time to sell: seconds against the price model's", ("sales", "lines"), speed,
              ("From the same rows, products known, in turn.",)),
    ]  # fmt: skip


def _chance(worlds: list[Measures], listings: int, days: int, lines: str) -> dict[str, Figure]:
    def told(measure: str, name: str) -> list[float]:
        return [world[f"{days}/{lines}/{measure}/{name}"] for world in worlds]

    figures = {name: Figure.of(told("rmse", name)) for name in ("ours", *METHODS)}
    bar = ("survival at 50" if listings == _FEW else "survival") if lines == "all" else ""
    for name in METHODS:
        ratios = [ours / other for ours, other in zip(told("rmse", "ours"), told("rmse", name), strict=True)]
        figures[f"/ {name}"] = Figure.of(ratios, bar)
    return figures | {f"bias of {name}": Figure.of(told("bias", name)) for name in ("ours", *METHODS)}


def _deep(worlds: list[Measures]) -> dict[str, Figure]:
    names = {"all": "deep 80", "known": "", "new": "", "within p10 to p90": "", "whole lot": "", "sold / told": ""}
    return {name: Figure.of([world[f"deep/{name}"] for world in worlds], bar) for name, bar in names.items()}


def _speed(told: dict[str, float]) -> dict[str, Figure]:
    figures = {name: Figure.of([value]) for name, value in told.items()}
    for part in ("fit", "lot"):
        figures[f"/ {part}"] = Figure.of([told[f"pace {part}"] / told[f"price {part}"]], "pace time")
    return figures
