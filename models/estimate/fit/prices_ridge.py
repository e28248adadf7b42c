"""How large is each effect, and how far may a block's effects spread?  Hierarchical ridge, its variances learned.

Each block's effects are N(0, tau^2 I) under one prior for all goods: tau^2 scaled inverse chi-square with 4 degrees of
freedom around (k sigma / .4)^2, sigma^2 what one row scatters in the same round.  Rounds of: solve, then re-estimate
every variance from squared effects over effective counts.

References
----------
MacKay 1992, Bayesian interpolation. doi:10.1162/neco.1992.4.3.415
Harville 1977, Maximum likelihood approaches to variance component estimation. doi:10.1080/01621459.1977.10480998
"""

from dataclasses import dataclass, replace

import numpy as np
from scipy.sparse import csr_matrix, diags_array
from scipy.special import gammaln

from models.estimate.blocks import BLOCKS, Layout
from models.estimate.fit.prices_items import Groups, Spread
from models.estimate.fit.prices_noise import learned_factors, row_factors
from models.estimate.fit.prices_solver import Factor, distinct, factorised
from models.estimate.posterior import Posterior, packed_factor
from models.values.arrays import FloatArray, IntArray

DEGREES = 4.0
REFERENCE_SD = 0.4
GROUP_WEIGHT = 10.0
ROUNDS = 3
_MOST_RATIO = 0.6  # steps that shrink more slowly are followed as if they shrank so
_MOST_GROUPS = 600  # groups whose share of the regression's error is worked out; the rest count as these


@dataclass(frozen=True)
class Problem:
    """One regression to solve."""

    rows: csr_matrix  # (n_rows, p)
    outcome: FloatArray  # (n_rows,)
    groups: Groups
    block: IntArray  # (p,) index in BLOCKS
    fixed: FloatArray  # (p,) prior precision of base columns; 0 is flat
    scale: FloatArray  # (n_blocks,) k: prior sd of a block's effects where sigma is .4
    noise_sd: float  # where the noise starts, worth GROUP_WEIGHT rows
    item_sd: float  # where product and item effects together start; 0: there are none
    row_factor: FloatArray  # (n_rows,) noise variance of a row beside what is learned, in units of the common one
    noise_by: tuple[IntArray, ...] = ()  # codes (n_rows,) of each grouping whose noise differs
    noise_sizes: tuple[int, ...] = ()  # levels of each grouping
    degrees: float = DEGREES  # 0: no prior on the variances
    apart: int = 0  # the first so many columns meet no other of them: no row, nor product, has two


@dataclass(frozen=True)
class Variances:
    """All variances of one round."""

    noise: float
    product: float
    item: float
    block: FloatArray  # (n_blocks,)
    noise_tables: tuple[FloatArray, ...]  # factors of each grouping's levels, in units of `noise`


@dataclass(frozen=True)
class Solved:
    """Effects under given variances."""

    mean: FloatArray  # (p,)
    factor: Factor  # of the precision
    effective: FloatArray  # (n_blocks,) effective number of effects in each block
    variances: Variances
    spread: Spread


def start(problem: Problem) -> Variances:
    """Variances before any data are seen: product effects carry four fifths of what goods differ by."""
    item = problem.item_sd**2
    block = (problem.scale * np.sqrt(problem.noise_sd**2 + item) / REFERENCE_SD) ** 2
    tables = tuple(np.ones(size) for size in problem.noise_sizes)
    return Variances(problem.noise_sd**2, 0.8 * item, 0.2 * item, block, tables)


def merged(problem: Problem) -> Problem:
    """The same regression in fewer effects: m equal columns of a block act as one, sqrt(m) times as large.

    The other m - 1 directions are seen by no row.  They keep prior mean and spread, so that neither squares of effects
    nor effective numbers, and thus no variance, tell both regressions apart.
    """
    first, times = distinct(problem.rows, problem.block)
    rows = (problem.rows.tocsc()[:, first] @ diags_array(np.sqrt(times))).tocsr()
    return replace(problem, rows=rows, block=problem.block[first], fixed=problem.fixed[first])


def solve(problem: Problem, variances: Variances) -> Solved:
    """Posterior of the effects under given variances.

    Spreads are in single precision, as a posterior keeps them, but in the flat-prior limit.
    """
    factor = row_factors(problem.noise_by, variances.noise_tables, problem.row_factor)
    spread = Spread(problem.groups, 1 / (variances.noise * factor), variances.product, variances.item)
    prior = problem.fixed.copy()
    blocks = problem.block > 0
    prior[blocks] = 1 / variances.block[problem.block[blocks]]
    single = problem.degrees > 0
    inverse = factorised(problem.rows, spread, prior, problem.apart, single)
    right = problem.rows.T @ spread.whitened(problem.outcome)
    mean = inverse.solved(right)
    if single:  # one step of refinement makes the effects themselves exact again
        missed = right - problem.rows.T @ spread.whitened(problem.rows @ mean) - prior * mean
        mean = mean + inverse.solved(missed)
    effective = np.bincount(problem.block, 1 - inverse.variance() * prior, minlength=len(BLOCKS)).astype(np.float64)
    return Solved(mean, inverse, effective, variances, spread)


def residuals(problem: Problem, solved: Solved) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Rows' own noise, products' effects and items' deviations as fitted."""
    rest = problem.outcome - problem.rows @ solved.mean
    product, item = solved.spread.effects(rest)
    groups = problem.groups
    return rest - (product[groups.product] + item)[groups.item], product, item


def learned(problem: Problem, solved: Solved) -> Variances:
    """Variances of the next round."""
    own, product, item = residuals(problem, solved)
    now = solved.variances
    counts = _effective_groups(problem, solved)
    rows = float(np.sum(1 / problem.row_factor))
    noise_count = max(rows - float(solved.effective.sum()) - sum(counts), 1e-9)
    prior = GROUP_WEIGHT if problem.degrees > 0 else 0.0
    own_squares = float(np.sum(own**2 * solved.spread.weight)) * now.noise
    noise = (own_squares + prior * problem.noise_sd**2) / (noise_count + prior)
    tables = learned_factors(own, solved.spread.own_share, problem.noise_by, now.noise_tables, problem.row_factor)
    product_var, item_var = now.product, now.item
    if problem.item_sd > 0:
        share = now.product / solved.spread.product_prior
        product_var = _pooled(float(np.sum((share * product) ** 2)), counts[0], 0.8 * problem.item_sd**2, prior)
        item_var = _pooled(float(np.sum(item**2)), counts[1], 0.2 * problem.item_sd**2, prior)
    scatter = np.sqrt(noise + product_var + item_var)
    centre = (problem.scale * scatter / REFERENCE_SD) ** 2
    squares = np.bincount(problem.block, solved.mean**2, minlength=len(BLOCKS))
    block = (squares + problem.degrees * centre) / np.maximum(solved.effective + problem.degrees, 1e-12)
    return Variances(noise, product_var, item_var, np.maximum(block, 1e-12), tables)


def learned_variances(problem: Problem, rounds: int = ROUNDS) -> Variances:
    """Variances after so many rounds of solving and learning, the last two steps followed to where they lead."""
    problem = merged(problem) if problem.degrees > 0 else problem
    path = [start(problem)]
    for _ in range(rounds):
        path = [*path[-2:], learned(problem, solve(problem, path[-1]))]
    return ahead(*path) if len(path) > 2 else path[-1]


def ahead(before: Variances, last: Variances, now: Variances) -> Variances:
    """Where three rounds in a row lead: each variance's steps shrink by one ratio, so what is left is a sum of them.

    Examples
    --------
    >>> one, two, three = (Variances(noise, 0.0, 0.0, np.ones(1), ()) for noise in (16.0, 4.0, 2.0))
    >>> round(ahead(one, two, three).noise, 6)
    1.0
    """

    def followed(first: FloatArray, second: FloatArray, third: FloatArray) -> FloatArray:
        first, second, third = (np.log(np.maximum(value, 1e-12)) for value in (first, second, third))
        step, past = third - second, second - first
        ratio = np.clip(np.divide(step, past, out=np.zeros_like(step), where=past != 0), 0.0, _MOST_RATIO)
        return np.asarray(np.exp(third + step * ratio / (1 - ratio)), dtype=np.float64)

    whole = [np.array([one.noise, one.product, one.item, *one.block]) for one in (before, last, now)]
    noise, product, item, *block = followed(*whole).tolist()
    product, item = (found if known > 0 else 0.0 for found, known in ((product, now.product), (item, now.item)))
    return Variances(noise, product, item, np.array(block), now.noise_tables)


def _pooled(squares: float, count: float, prior_var: float, prior_weight: float) -> float:
    return (squares + prior_weight * prior_var) / (max(count, 0.0) + prior_weight)


def _effective_groups(problem: Problem, solved: Solved) -> tuple[float, float]:
    """Effective numbers of product effects and item deviations: sum of 1 - posterior over prior variance.

    The posterior variance holds the regression's own error too, read from a sample of groups where there are many.
    """
    spread = solved.spread
    if spread.product_var + spread.item_var == 0:
        return 0.0, 0.0
    prior, known = spread.product_prior, spread.product_information
    believed = known * prior / (1 + known * prior)
    posterior = prior / (1 + known * prior)
    item_rows = spread.item_rows(problem.rows)
    product_rows = spread.product_rows(item_rows)
    part = spread.product_var / np.maximum(prior, 1e-300)
    product = float(np.sum(believed * part)) - _shared_error(solved, product_rows, believed**2 * part / prior)
    share, of = spread.item_share, spread.groups.product
    item = np.maximum(spread.item_var, 1e-12)
    beside = item_rows - diags_array(believed[of]) @ product_rows[of]
    own = float(np.sum(share - share**2 * posterior[of] / item))
    return max(product, 0.0), max(own - _shared_error(solved, beside, share**2 / item), 0.0)


def _shared_error(solved: Solved, rows: csr_matrix, weight: FloatArray) -> float:
    """Sum over groups of weight x row' Sigma row, Sigma the posterior of the effects."""
    count = rows.shape[0]
    some = np.unique(np.linspace(0, count - 1, min(count, _MOST_GROUPS)).astype(np.int64))
    return float(np.sum(weight[some] * solved.factor.quadratic(rows[some])) * count / max(len(some), 1))


def posterior_of(problem: Problem, solved: Solved, layout: Layout) -> Posterior:
    """What is kept of a fit; a never-seen level's sd is the posterior mean of its block's sd.

    With nu = gamma + 4 degrees that is tau sqrt(nu / 2) Gamma((nu - 1) / 2) / Gamma(nu / 2).  The mean of the variance
    would be more, but ranges are read from a normal: it would make the middle ones too wide where nu is small.
    """
    block, nu = solved.variances.block, np.maximum(solved.effective, 0.0) + DEGREES
    unseen = block * nu / 2 * np.exp(2 * (gammaln((nu - 1) / 2) - gammaln(nu / 2)))
    return Posterior(layout, solved.mean, packed_factor(solved.factor.whole()), block, unseen, solved.variances.noise)
