"""Files read: mutated ones that may neither crash nor mislead, long ones against bare readers, a long history."""

from collections import Counter

from models.bench.figures import Figure, Row, Table
from models.bench.files.mutations import BYTES, CELLS, KEEPING, WAYS
from models.bench.files.trials import (
    LongHistory,
    LongManifest,
    Mutated,
    mutated_tasks,
    run_long_history,
    run_long_manifest,
    run_mutated,
)
from models.bench.plan import Plan
from models.bench.tasks import Results, Task

GIB = 2**30 / 1e6  # MB
_PIECES = 10
_WORDS = {
    KEEPING: "meaning kept: order of columns, case, blank rows, quotes, delimiter, encoding",
    CELLS: "one to three cells hold something else",
    BYTES: "bytes cut, doubled, overwritten",
}


def _mutated(plan: Plan) -> list[Mutated]:
    return list(mutated_tasks(plan.mutated_files, _PIECES))


def _manifests(plan: Plan) -> list[LongManifest]:
    return [LongManifest(plan.manifest_lines, different) for different in (False, True)]


def tasks(plan: Plan) -> list[Task]:
    """Mutated files in any order; what is timed or weighed with nothing beside it."""
    return [
        *[Task(run_mutated, one, one.files / 150, f"intake: {one.files:,} mutated files") for one in _mutated(plan)],
        *[
            Task(run_long_manifest, one, one.lines / 1500, f"intake: {one.lines:,} lines", True)
            for one in _manifests(plan)
        ],
        Task(
            run_long_history, LongHistory(plan.history_rows), plan.history_rows / 20_000, "intake: a long history", True
        ),
    ]


def tables(plan: Plan, results: Results) -> list[Table]:
    """Mutations, speed, memory."""
    counts: Counter[str] = sum((results[one] for one in _mutated(plan)), Counter())
    history = LongHistory(plan.history_rows)
    return [
        Table("Mutated files", ("how",), [Row((_WORDS[way],), _counted(way, counts)) for way in WAYS],
              ("Wrong: refused or read otherwise though the meaning was kept; or changed, neither touched nor named.",
               "Slow: over five seconds for thirty rows.")),
        Table("Reading long manifests", ("file",),
              [Row((_name(one),), _speeds(results[one])) for one in _manifests(plan)],
              ("Seconds, best of three; bare: csv.reader over the decoded text, calamine's rows of the one sheet.",)),
        Table("Reading a long sold history", ("CSV of",),
              [Row((f"{history.rows:,} rows",), _memory(history, results[history]))],
              ("Largest size of the process, the file's own bytes included.",)),
    ]  # fmt: skip


def _counted(way: str, counts: Counter[str]) -> dict[str, Figure]:
    told = {what: counts[f"{way} {what}"] for what in ("read", "crashed", "slow", "wrong")}
    bars = {"crashed": "mutated crashed", "slow": "mutated slow", "wrong": "mutated wrong"}
    return {"files": Figure.of([told["read"] + told["crashed"]])} | {
        what: Figure.of([told[what]], bar) for what, bar in bars.items()
    }


def _name(one: LongManifest) -> str:
    return f"{one.lines:,} lines, {'all different' if one.different else 'of 20,000 things'}"


def _speeds(told: dict[str, float]) -> dict[str, Figure]:
    return {
        "XLSX": Figure.of([told["xlsx"]]),
        "bare XLSX": Figure.of([told["bare xlsx"]]),
        "/ bare XLSX": Figure.of([told["xlsx"] / told["bare xlsx"]], "read xlsx"),
        "CSV": Figure.of([told["csv"]]),
        "bare CSV": Figure.of([told["bare csv"]]),
        "/ bare CSV": Figure.of([told["csv"] / told["bare csv"]], "read csv"),
    }


def _memory(asked: LongHistory, told: dict[str, float]) -> dict[str, Figure]:
    bar = "read history" if asked.rows >= 1_000_000 else ""
    return {
        "seconds": Figure.of([told["seconds"]]),
        "file MB": Figure.of([told["file"]]),
        "GiB before": Figure.of([told["before"] / GIB]),
        "GiB": Figure.of([told["memory"] / GIB], bar),
    }
