"""How far does a what-if lie from the lot evaluated anew?  It holds each line's action and the way it sells."""

import numpy as np

from models.bench.figures import Figure, Row, Table
from models.bench.plan import Plan
from models.bench.reread_trial import CHANGES, TERMS, Differences, RereadTrial, run_reread
from models.bench.tasks import Results, Task
from models.bench.worlds.shape import Shape

FIRST_SEED, SALES = 4001, 300


def trials(plan: Plan) -> list[RereadTrial]:
    """One a world."""
    worlds, lots = plan.what_if
    return [RereadTrial(Shape(seed=FIRST_SEED + number, n_sales=SALES), lots) for number in range(worlds)]


def tasks(plan: Plan) -> list[Task]:
    """One task a world."""
    return [Task(run_reread, trial, 12.0 * trial.lots, "what-if") for trial in trials(plan)]


def tables(plan: Plan, results: Results) -> list[Table]:
    """One row a key; both ends of its range, all lots of all worlds."""
    worlds: list[Differences] = [results[trial] for trial in trials(plan)]
    rows = [Row((key, f"{low:g} and {high:g}"), _row(worlds, key)) for key, (low, high) in CHANGES.items()]
    return [
        Table("What-if: the ceiling read again against the lot evaluated anew, percent", ("key", "changed to"), rows,
              (f"Lots a world: {plan.what_if[1]}.  Evaluated at {_terms()}, the rest assumed or learned.",
               "Median and largest size of the difference over lots and ends; mean with its sign.")),
    ]  # fmt: skip


def _terms() -> str:
    return ", ".join(f"{group}.{key} {value}" for group, keys in TERMS.items() for key, value in keys.items())


def _row(worlds: list[Differences], key: str) -> dict[str, Figure]:
    by_world = [100 * np.array(world[key]) for world in worlds]
    return {
        "median": Figure.of([float(np.nanmedian(np.abs(one))) for one in by_world]),
        "worst": Figure.of([float(np.nanmax(np.abs(np.concatenate(by_world))))]),
        "mean": Figure.of([float(np.nanmean(one)) for one in by_world]),
    }
