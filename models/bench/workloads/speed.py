"""Time and memory in one run: fits against plain ridges, lots against reading them.  Nothing else runs beside."""

from models.bench.figures import Figure, Row, Table
from models.bench.plan import Plan
from models.bench.tasks import Results, Task
from models.bench.timing import Fit, run_fit
from models.bench.timing_lots import Manifest, run_manifest

GIB = 2**30 / 1e6  # MB


def _fits(plan: Plan) -> list[Fit]:
    return [Fit(3000, 5), Fit(100_000, 1), *([Fit(500_000, 0)] if plan.large else [])]


def _lots(plan: Plan) -> list[Manifest]:
    return [Manifest(10_000, False), *([Manifest(10_000, True), Manifest(100_000, True)] if plan.large else [])]


def tasks(plan: Plan) -> list[Task]:
    """To be done one after the other, each in a process of its own."""
    fits = [Task(run_fit, one, one.sales / 2000, f"speed: fit of {one.sales:,} sales", True) for one in _fits(plan)]
    return fits + [
        Task(run_manifest, one, one.lines / 1000, f"speed: lot of {one.lines:,} lines", True) for one in _lots(plan)
    ]


def tables(plan: Plan, results: Results) -> list[Table]:
    """Fits, then lots; seconds, and MB of 10^6 bytes."""
    fits = [Row((f"{one.sales:,} sales",), _fit(one, results[one])) for one in _fits(plan)]
    lots = [Row((_name(one),), _lot(one, results[one])) for one in _lots(plan)]
    return [
        Table("Speed: fits", ("fit of",), fits,
              ("Seconds, best of several; plain ridge: words and pairs, kinds, tag, bulk, age, one given penalty.",
               "Tuned ridge: the same, its penalty chosen in five folds, as in the table of line prices.")),
        Table("Speed: lots from a fit of 3,000 sales", ("lot",), lots,
              ("Valued: matched, priced, total in closed form; appraised: every draw of the decision too.",)),
    ]  # fmt: skip


def _name(one: Manifest) -> str:
    return f"{one.lines:,} lines, {'appraised' if one.drawn else 'valued'}"


def _fit(one: Fit, told: dict[str, float]) -> dict[str, Figure]:
    found = {"seconds": Figure.of([told["ours"]])}
    if "ridge" in told:
        bar = {3000: "fit of 3,000", 100_000: "fit of 100,000"}[one.sales]
        found["plain ridge"] = Figure.of([told["ridge"]])
        found["/ plain ridge"] = Figure.of([told["ours"] / told["ridge"]], bar)
        found["tuned ridge"] = Figure.of([told["tuned ridge"]])
        found["/ tuned ridge"] = Figure.of([told["ours"] / told["tuned ridge"]])
        found["ridge on our columns"] = Figure.of([told["own columns"]])
        found["/ that"] = Figure.of([told["ours"] / told["own columns"]])
    found["GiB"] = Figure.of([told["memory"] / GIB], "fit of 500,000" if one.sales == 500_000 else "")
    return found


def _lot(one: Manifest, told: dict[str, float]) -> dict[str, Figure]:
    if one.drawn:
        bar = "stream memory" if one.lines == 100_000 else "lot memory"
        return {"seconds": Figure.of([told["appraising"]]), "MB": Figure.of([told["memory"]], bar)}
    base = told["reading"] + told["featurising"]
    return {
        "seconds": Figure.of([told["valuing"]]),
        "reading": Figure.of([told["reading"]]),
        "featurising": Figure.of([told["featurising"]]),
        "/ both": Figure.of([told["valuing"] / base], "lot time"),
        "MB": Figure.of([told["memory"]], "lot memory"),
    }
