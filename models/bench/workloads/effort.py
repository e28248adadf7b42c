"""Listing effort: minutes of a line and hours of a lot against sellers whose true minutes are known."""

from models.bench.effort.timing import EffortFit, run_effort_fit
from models.bench.effort.trial import Measures, run_effort
from models.bench.effort.world import EffortShape
from models.bench.figures import Figure, Row, Table
from models.bench.plan import Plan
from models.bench.tasks import Results, Task

SIZES = (50, 300, 3000)
TOLD = {
    "all": "minutes of every row", "half": "minutes of half the rows", "totals": "totals of half the weeks",
    "dates": "dates only",
}  # fmt: skip
_NOTES = (
    "Mean absolute error of a line's minutes in shares of its true mean; goods of a kind that the seller never listed,",
    "one line in six, apart.  Sellers lie around the default times by a factor of e^.5, kinds and states of goods by",
    ".15 to .4; goods of one purchase share up to .2; noise is Student, .4.  Totals are rounded to half an hour; the",
    "export shows 85% of what was listed.  Hours: lots of 20 to 60 lines inside the stated 80% range; / truth: mean of",
    "actual over expected; pace: mean absolute log error of the measured hours a week.",
)


def shapes(plan: Plan, rows: int, told: str) -> list[EffortShape]:
    """The sellers of one size."""
    return [EffortShape(seed, rows, told, plan.effort[1]) for seed in range(1, plan.effort[0] + 1)]


def tasks(plan: Plan) -> list[Task]:
    """One task a seller, and one that is timed."""
    worlds = [
        Task(run_effort, shape, 0.6 if told in ("all", "half") else 0.2, f"effort, {rows:,} rows")
        for rows in SIZES
        for told in TOLD
        for shape in shapes(plan, rows, told)
    ]
    return [*worlds, Task(run_effort_fit, EffortFit(3000, 5), 8.0, "effort: speed", True)]


def tables(plan: Plan, results: Results) -> list[Table]:
    """Errors and coverage, then time."""
    rows = [
        Row((f"{size:,}", TOLD[told]), _figures(size, told, [results[shape] for shape in shapes(plan, size, told)]))
        for size in SIZES
        for told in TOLD
    ]
    speed = results[EffortFit(3000, 5)]
    return [
        Table("Effort: minutes of lines, hours of lots", ("rows", "told"), rows, _NOTES),
        Table("Effort: time of a fit and of a lot of 1,000 lines against prices", ("fit of",),
              [Row(("3,000 sales",), _speed(speed))],
              ("Seconds, best of several in turn; both: effort and time to sell together.",)),
    ]  # fmt: skip


def _figures(size: int, told: str, worlds: list[Measures]) -> dict[str, Figure]:
    def of(key: str, bar: str = "") -> Figure:
        return Figure.of([world[key] for world in worlds if key in world], bar)

    found = {"ours": of("mape/ours", f"minutes at {size}" if told == "all" else "")}
    for name in ("Gamma GLM", "mean minutes", "settings"):
        found[name] = of(f"mape/{name}")
    found["never listed"] = of("never listed/ours")
    found["hours 80"] = of("holds 80", "hours 80" if told != "dates" else "")
    found |= {"p90 / p10": of("width"), "/ truth": of("hours"), "pace": of("pace"), "timed": of("timings")}
    return found | {"entries": of("entries")}


def _speed(told: Measures) -> dict[str, Figure]:
    price, both = told["prices"], told["effort"] + told["tempo"]
    return {
        "effort": Figure.of([told["effort"]]),
        "time to sell": Figure.of([told["tempo"]]),
        "prices": Figure.of([price]),
        "effort / prices": Figure.of([told["effort"] / price]),
        "both / prices": Figure.of([both / price], "effort and tempo time"),
    }
