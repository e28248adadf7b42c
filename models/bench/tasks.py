"""How is the work spread over two processes?  Every task is one world; equal tasks of two workloads are done once."""

import multiprocessing
from collections.abc import Callable, Hashable, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import dataclass
from typing import Any

PROCESSES = 2
Report = Callable[[float, str], None]
Results = dict[Hashable, Any]


@dataclass(frozen=True)
class Task:
    """`run(argument)` in a fresh process; `weight` is about how long it takes, `says` what it is.

    `alone`: it is timed, so nothing may run beside it.
    """

    run: Callable[[Any], Any]
    argument: Hashable
    weight: float
    says: str
    alone: bool = False


def carried_out(tasks: Sequence[Task], report: Report, alone: bool = False) -> Results:
    """What each task answered, by its argument; the longest go first so that both processes end together.

    `alone`: one after the other, each in a fresh process, so that times and memory are its own.  Spawned children
    inherit the entry point's cap of one linear algebra thread.
    """
    todo = sorted({task.argument: task for task in tasks}.values(), key=lambda task: -task.weight)
    whole, done = sum(task.weight for task in todo), 0.0
    results: Results = {}
    context = multiprocessing.get_context("spawn")
    processes, tasks_each = (1, 1) if alone else (PROCESSES, None)
    with ProcessPoolExecutor(processes, context, max_tasks_per_child=tasks_each) as pool:
        waiting = {pool.submit(task.run, task.argument): task for task in todo}
        for future in as_completed(waiting):
            task = waiting[future]
            results[task.argument] = future.result()
            done += task.weight
            report(done / whole, task.says)
    return results
