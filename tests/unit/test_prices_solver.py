"""Eliminating effects that never meet changes no figure; rounds followed ahead end where many rounds end."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.sparse import csr_matrix

from models.estimate.blocks import BLOCKS
from models.estimate.fit.prices_items import Groups, Spread
from models.estimate.fit.prices_ridge import Problem, learned, learned_variances, merged, solve, start
from models.estimate.fit.prices_solver import apart_first, factorised
from models.estimate.sparse_rows import from_entries, quadratic
from models.values.streams import stream


@pytest.fixture
def problem():
    rng = stream(4, "problem")
    n, products = 240, 80
    product = rng.integers(0, products, n)
    item_key, item = np.unique(product * 2 + rng.integers(0, 2, n), return_inverse=True)
    brand, word = (product % 30)[:, None] == np.arange(30), product[:, None] == np.arange(0, 40, 2)
    rows = np.hstack([np.ones((n, 1)), brand, word])
    effects = rng.normal(0, 0.3, rows.shape[1])
    outcome = rows @ effects + rng.normal(0, 0.2, products)[product] + rng.normal(0, 0.2, n)
    block = np.repeat([0, BLOCKS.index("brand"), BLOCKS.index("words")], [1, 30, 20])
    return Problem(
        rows=csr_matrix(rows), outcome=outcome, groups=Groups(item, item_key // 2, np.full(products, 0.01)),
        block=block, fixed=np.zeros(len(block)), scale=np.full(len(BLOCKS), 0.2), noise_sd=0.15, item_sd=0.2,
        row_factor=np.ones(n),
    )  # fmt: skip


@pytest.fixture
def ordered(problem):
    order, apart = apart_first(problem.rows, problem.groups)
    return replace(problem, rows=problem.rows[:, order], block=problem.block[order], apart=apart)


def test_effects_apart_never_meet_and_change_nothing(ordered):
    assert ordered.apart >= 20
    product = ordered.groups.product[ordered.groups.item]
    met = np.stack([(ordered.rows[product == one] != 0).sum(axis=0) > 0 for one in range(80)])
    assert np.all(met[:, : ordered.apart].sum(axis=1) <= 1)
    spread = Spread(ordered.groups, np.linspace(5, 50, len(ordered.outcome)), 0.04, 0.01)
    prior = np.full(51, 7.0)
    plain = factorised(ordered.rows, spread, prior, 0, False)
    few = factorised(ordered.rows, spread, prior, ordered.apart, False)
    right = np.arange(51.0)
    assert few.solved(right) == pytest.approx(plain.solved(right), abs=1e-9)
    assert few.variance() == pytest.approx(plain.variance(), rel=1e-9)
    assert few.quadratic(ordered.rows) == pytest.approx(plain.quadratic(ordered.rows), rel=1e-9)
    assert few.whole() == pytest.approx(plain.inverse, abs=1e-9)
    assert few.whole() == pytest.approx(np.tril(few.whole()))


def test_single_precision_keeps_the_effects_and_their_spread(ordered):
    double = solve(replace(ordered, degrees=0.0, apart=0), start(ordered))
    single = solve(ordered, start(ordered))
    assert single.mean == pytest.approx(double.mean, abs=1e-8)
    assert single.factor.variance() == pytest.approx(double.factor.variance(), rel=1e-5)


def test_equal_columns_of_a_block_teach_its_variances_as_one(problem):
    words = np.flatnonzero(problem.block == BLOCKS.index("words"))
    index = np.concatenate([np.arange(51), words[:7], words[:3], [0]])
    many = replace(problem, rows=problem.rows[:, index], block=problem.block[index], fixed=np.full(len(index), 0.5))
    few = merged(many)
    assert few.rows.shape[1] == 52  # the base column stays twice, since its prior is its own
    one, other = solve(many, start(many)), solve(few, start(few))
    assert other.effective == pytest.approx(one.effective, abs=1e-4)
    first, second = learned(many, one), learned(few, other)
    assert second.block == pytest.approx(first.block, rel=1e-5)
    assert (second.noise, second.product, second.item) == pytest.approx((first.noise, first.product, first.item), 1e-5)


def test_three_rounds_followed_ahead_end_near_where_many_rounds_end(problem):
    variances = start(problem)
    for _ in range(60):
        variances = learned(problem, solve(problem, variances))
    found = learned_variances(problem)
    before = learned(problem, solve(problem, learned(problem, solve(problem, start(problem)))))
    used = [BLOCKS.index("brand"), BLOCKS.index("words")]
    far = np.abs(np.log(before.block[used] / variances.block[used]))
    assert np.all(np.abs(np.log(found.block[used] / variances.block[used])) < np.maximum(0.15, far))
    assert found.noise == pytest.approx(variances.noise, rel=0.1)


def test_quadratic_forms_of_many_rows_do_not_depend_on_their_slices():
    rng = stream(1, "forms")
    row, column = np.repeat(np.arange(3000), 20), rng.integers(0, 50, 60_000)
    rows = from_entries(row, column, rng.normal(size=60_000), (3000, 50))
    matrix = np.cov(rng.normal(size=(50, 200)))
    dense = csr_matrix((rows.value, rows.column, rows.start), shape=(3000, 50)).toarray()
    assert quadratic(rows, matrix) == pytest.approx(np.einsum("ij,jk,ik->i", dense, matrix, dense), rel=1e-9)
