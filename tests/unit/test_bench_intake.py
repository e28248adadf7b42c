"""The bench's files: each seed gives the same file, tasks count what they read, tables hold every bar."""

from collections import Counter
from dataclasses import replace

import pytest

from models.bench.bars import BARS
from models.bench.files.mutations import spoilt
from models.bench.files.sheets import HISTORY, MANIFEST, long_rows
from models.bench.files.trials import (
    LongHistory,
    LongManifest,
    Mutated,
    mutated_tasks,
    run_long_history,
    run_long_manifest,
    run_mutated,
)
from models.bench.plan import FULL, QUICK
from models.bench.workloads import intake


def test_a_seed_is_a_file() -> None:
    assert all(spoilt(seed).data == spoilt(seed).data for seed in range(6))
    assert len({spoilt(seed).data for seed in range(60)}) == 60


def test_pieces_cover_every_seed_once() -> None:
    seeds = [seed for one in mutated_tasks(103, 10) for seed in range(one.first, one.first + one.files)]
    assert seeds == list(range(103))


def test_what_cannot_be_read_is_counted(monkeypatch: pytest.MonkeyPatch) -> None:
    assert run_mutated(Mutated(0, 6)).total() == 6
    monkeypatch.setattr("models.bench.files.trials.faults_of", lambda case: 1 / 0)
    assert run_mutated(Mutated(0, 6)) == Counter({"keeping crashed": 2, "cells crashed": 2, "bytes crashed": 2})
    monkeypatch.setattr("models.bench.files.trials.faults_of", lambda case: ["changed"])
    assert run_mutated(Mutated(0, 6))["cells wrong"] == 2


@pytest.mark.parametrize("kind", [MANIFEST, HISTORY])
def test_long_files_have_as_many_things_as_they_say(kind: str) -> None:
    sku = 0 if kind == MANIFEST else 1
    rows = list(long_rows(kind, 200, different=True))[1:]
    assert len({row[sku] for row in rows}) == len(rows) == 200


def test_tables_hold_every_bar() -> None:
    plan = replace(FULL, mutated_files=12, manifest_lines=200, history_rows=200)
    results = {task.argument: task.run(task.argument) for task in intake.tasks(plan)}
    tables = intake.tables(plan, results)
    assert sum(row.figures["files"].mean for row in tables[0].rows) == 12
    held = {figure.bar for table in tables for row in table.rows for figure in row.figures.values()}
    assert held - {""} == {"mutated crashed", "mutated slow", "mutated wrong", "read xlsx", "read csv"}
    assert "read history" in BARS


def test_what_is_timed_runs_alone() -> None:
    assert {type(task.argument) for task in intake.tasks(QUICK) if task.alone} == {LongManifest, LongHistory}


def test_the_full_run_is_as_long_as_the_bars_ask_for() -> None:
    assert (FULL.mutated_files, FULL.manifest_lines, FULL.history_rows) >= (20_000, 100_000, 1_000_000)


def test_measures_are_there() -> None:
    assert set(run_long_manifest(LongManifest(50, True))) == {"bare csv", "csv", "bare xlsx", "xlsx"}
    assert run_long_history(LongHistory(50))["memory"] > 0
