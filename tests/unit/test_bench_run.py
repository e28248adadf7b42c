"""The bench as a whole: tasks in fresh processes, tables in order, the command's refusals."""

from dataclasses import replace
from types import MappingProxyType

import numpy as np
import pytest
from typer.testing import CliRunner

from api.cli.main import app
from models.bench.plan import FULL, QUICK
from models.bench.tasks import Task, carried_out


def test_equal_tasks_are_done_once_and_progress_ends_at_one():
    told = []
    tasks = [Task(abs, -1, 1.0, "one"), Task(abs, -1, 1.0, "one"), Task(abs, -2, 3.0, "two")]
    assert carried_out(tasks, lambda share, step: told.append(share)) == {-1: 1, -2: 2}
    assert len(told) == 2
    assert told[-1] == pytest.approx(1.0)


def test_a_small_run_prints_one_table_a_workload():
    pytest.importorskip("catboost")
    pytest.importorskip("lightgbm")
    from models.bench.run import Wish, bench

    plan = replace(QUICK, closed_form=MappingProxyType({50: 1}), bulk_worlds=1)
    tables = list(bench(Wish(plan, ("closed_form", "bulk")), lambda share, step: None))
    assert [table.title.split(":")[0] for table in tables] == ["Bulk", "Closed form against 20,000 draws, 5 to 95%"]
    assert np.isfinite(tables[1].rows[0].figures["rms of log quantiles"].mean)


def test_the_full_run_has_the_worlds_that_the_bars_ask_for():
    assert (FULL.worlds[50], FULL.worlds[300], FULL.worlds[3000], FULL.worlds[30000]) >= (20, 20, 8, 2)
    assert min(FULL.money_worlds[50], FULL.money_worlds[300]) >= 48
    assert FULL.drift[0] >= 4
    assert FULL.drift[1] >= 12


def test_an_unknown_workload_is_refused():
    pytest.importorskip("catboost")
    pytest.importorskip("lightgbm")
    answer = CliRunner().invoke(app, ["bench", "--only", "nonsense"])
    assert answer.exit_code == 2
    assert "no such workload" in answer.output


def test_missing_packages_are_named(monkeypatch):
    monkeypatch.setattr("api.cli.bench_run.find_spec", lambda name: None)
    answer = CliRunner().invoke(app, ["bench"])
    assert answer.exit_code == 2
    assert "lotwright[bench]" in answer.output
