"""Real markets through the whole price path: PC prices on a falling market, cars of makes never sold."""

import numpy as np

from models.bench.figures import Figure, Row, Table
from models.bench.open_trial import Measures, Month, Split, run_month, run_split
from models.bench.plan import Plan
from models.bench.scores import standard_error
from models.bench.tasks import Results, Task

FIRST_MONTH, LAST_MONTH = 8, 33
_BARS = {
    "PC prices": {"holds 80": "computers 80", "/ ridge": "computers / ridge"},
    "car prices": {"holds 95": "cars 95"},
}


def months(plan: Plan) -> list[Month]:
    """Monthly cut-offs, evenly thinned where the plan has fewer."""
    chosen = np.unique(np.linspace(FIRST_MONTH, LAST_MONTH, plan.computers_cutoffs).round().astype(int))
    return [Month(int(month)) for month in chosen]


def splits(plan: Plan) -> list[Split]:
    """Random splits of the makes."""
    return [Split(number) for number in range(1, plan.car_splits + 1)]


def tasks(plan: Plan) -> list[Task]:
    """One task a cut-off or split."""
    computers = [Task(run_month, month, 6.0, "open market: PC prices") for month in months(plan)]
    return computers + [Task(run_split, split, 4.0, "open market: car prices") for split in splits(plan)]


def tables(plan: Plan, results: Results) -> list[Table]:
    """One row a market; the worlds are cut-offs and splits."""
    rows = [
        _row("PC prices", [results[month] for month in months(plan)]),
        _row("car prices", [results[split] for split in splits(plan)]),
    ]
    notes = (
        "Ecdat/Computers by monthly cut-offs, modeldata/car_prices by splits that hold out two of six makes; no tags.",
    )
    return [Table("Open markets", ("market",), rows, notes)]


def _row(market: str, worlds: list[Measures]) -> Row:
    bars = _BARS[market]
    names = ("holds 80", "holds 90", "holds 95", "independent 80", "sd", "crps", "rmse/ours")
    figures = {name: Figure.of([world[name] for world in worlds], bars.get(name, "")) for name in names}
    for name in ("ridge", "LightGBM", "CatBoost"):
        figures[f"rmse/{name}"] = Figure.of([world[f"rmse/{name}"] for world in worlds])
        against = [world["rmse/ours"] / world[f"rmse/{name}"] for world in worlds]
        figures[f"/ {name}"] = Figure.of(against, bars.get(f"/ {name}", ""))
    shift = np.array([world["shift"] for world in worlds])
    figures["shift"] = Figure.of(shift.tolist())
    figures["size of the mean shift"] = Figure.of(
        [abs(float(shift.mean()))], "computers shift" if market == "PC prices" else ""
    )
    figures["its standard error"] = Figure.of([standard_error(shift)])
    return Row((market,), figures)
