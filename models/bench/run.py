"""The whole bench: named workloads against named baselines, in one run."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from models.bench.figures import Table
from models.bench.plan import Plan
from models.bench.tasks import Report, Results, Task, carried_out
from models.bench.workloads import (
    auctions,
    bulk,
    closed_form,
    drift,
    effort,
    intake,
    money,
    open_markets,
    price,
    speed,
    tags,
    time_to_sell,
    totals,
    what_if,
)


class Workload(Protocol):
    """What each file in `workloads` offers."""

    def tasks(self, plan: Plan) -> list[Task]:
        """What has to be done."""
        ...

    def tables(self, plan: Plan, results: Results) -> list[Table]:
        """What came out."""
        ...


WORKLOADS: dict[str, Workload] = {
    "price": price, "totals": totals, "money": money, "tags": tags, "bulk": bulk, "drift": drift,
    "closed_form": closed_form, "open_markets": open_markets, "auctions": auctions, "what_if": what_if,
    "time": time_to_sell, "effort": effort, "speed": speed, "intake": intake,
}  # fmt: skip
_NEEDS = {"totals": ("price",)}  # whose worlds it reads too


@dataclass(frozen=True)
class Wish:
    """Which workloads to run; all where none is named."""

    plan: Plan
    only: Sequence[str] = ()

    @property
    def names(self) -> list[str]:
        """Names of the workloads to show."""
        return [name for name in WORKLOADS if not self.only or name in self.only]


def bench(wish: Wish, report: Report) -> Iterator[Table]:
    """Do everything, then hand out the tables in order."""
    doing = list(dict.fromkeys(more for name in wish.names for more in (*_NEEDS.get(name, ()), name)))
    todo = [task for name in doing for task in WORKLOADS[name].tasks(wish.plan)]
    timed, other = [task for task in todo if task.alone], [task for task in todo if not task.alone]
    results = carried_out(timed, report, alone=True) | carried_out(other, report)
    for name in wish.names:
        yield from WORKLOADS[name].tables(wish.plan, results)
