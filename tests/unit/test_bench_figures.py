"""Bars, verdicts and tables of the bench: what is met, what is not, and that every bar is asked for."""

from pathlib import Path

import numpy as np
import pytest

import models.bench.workloads
from models.bench.bars import BARS, Bar
from models.bench.figures import Figure, Row, Table, as_document
from models.bench.printed import bar_lines, table_lines
from models.bench.workloads import effort


def test_a_mean_inside_its_bar_is_met():
    assert Bar(0.7, 0.9, "x").verdict(0.8, 0.0) == "met"


def test_two_standard_errors_count_for_coverage_and_bias_only():
    assert Bar(0.7, 0.9, "x", allowance=True).verdict(0.66, 0.02) == "met within 2 se"
    assert Bar(0.7, 0.9, "x", allowance=True).verdict(0.65, 0.02) == "missed"
    assert Bar(0.7, 0.9, "x").verdict(0.66, 0.02) == "missed"


def test_a_single_world_has_no_standard_error_to_lean_on():
    figure = Figure.of([0.74], "calm 80")
    assert np.isnan(figure.error)
    assert figure.verdict == "missed"


def test_standard_error_is_by_world():
    assert Figure.of([1.0, 2.0, 3.0]).error == pytest.approx(1 / np.sqrt(3))


def test_a_table_prints_means_errors_and_verdicts():
    table = Table("Things", ("sales",), [Row(("50",), {"/ ridge": Figure.of([0.98, 1.0], "clean / ridge")})])
    text = "\n".join(table_lines(table))
    assert "| 50 | 2 | 0.990 (0.010) missed |" in text
    assert "at most 0.97 (issue bar): missed 1; stretch (at most 0.93) 0. Missed: 50, / ridge" in text


def test_a_document_holds_every_world():
    table = Table("Things", ("sales",), [Row(("50",), {"a": Figure.of([1.5, 2.0], "money")})])
    figure = as_document(table)["rows"][0]["figures"]["a"]
    assert figure["values"] == [1.5, 2.0]
    assert figure["bar"]["source"] == "issue bar"
    assert (figure["verdict"], figure["stretch"]) == ("missed", False)


def test_no_bar_no_verdict():
    assert list(bar_lines([Table("t", (), [Row((), {"a": Figure.of([1.0])})])])) == []


def test_every_bar_is_asked_for_by_a_workload():
    folder = Path(models.bench.workloads.__path__[0])
    source = "".join(path.read_text() for path in folder.glob("*.py"))
    made = {f"{tags} / ridge" for tags in ("clean", "wrong")}  # put together from the tags' name
    assert 'f"minutes at {size}"' in source
    made |= {f"minutes at {size}" for size in effort.SIZES}
    assert [key for key in BARS if f'"{key}"' not in source and key not in made] == []
