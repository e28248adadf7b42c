"""What tags do the shop's own goods carry?  One row a product: its own median tag on kind, brand and words."""

from dataclasses import dataclass, replace

import numpy as np
from scipy.sparse import csr_matrix

from models.estimate.blocks import BLOCKS, Facts, Layout, design
from models.estimate.fit.prices_items import Groups
from models.estimate.fit.prices_levels import TAG_BLOCKS, chosen
from models.estimate.fit.prices_ridge import (
    Problem,
    Variances,
    ahead,
    learned,
    merged,
    posterior_of,
    residuals,
    solve,
    start,
)
from models.estimate.fit.prices_sample import variance_rows
from models.estimate.fit.prices_solver import apart_first
from models.estimate.sparse_rows import SparseRows
from models.estimate.tags import (
    GOOD_SD,
    PRICE_SLOPE,
    WRONG_SHARE,
    TagModel,
    expected,
    good_probability,
    normal_log_density,
    read,
)
from models.values.arrays import FloatArray, IntArray

_LEVEL_SD = 0.4
_PAIR_SD = 0.2  # a brand in one kind of goods differs less from the brand than brands differ
_WORD_SD = 0.1
_NOISE_SD = 0.4
_ROUNDS = 4
_RATIO_SD = 0.5  # of prices around .9 of the tag, before the data speak
_RATIO_WORTH = 10.0  # products that it counts as
_SURE = 50.0
_SHARE_WORTH = 60.0  # products that the declared share of wrong tags counts as


@dataclass(frozen=True)
class Claims:
    """Own products with a tag; arrays of shape (n_tagged,)."""

    tag: FloatArray  # ln of the median own tag [ln minor units]
    price: FloatArray  # what its sales fetched, as a sealed single find [ln minor units], NaN never sold
    usual: float  # ln price less .9 ln tag, over all products
    usual_var: float

    def take(self, index: IntArray) -> "Claims":
        """The products at `index`."""
        return replace(self, tag=self.tag[index], price=self.price[index])

    def likelier(self, mean: FloatArray, var: FloatArray) -> FloatArray:
        """How many times as likely a product's prices are if its tag is good; 1 where it never sold."""
        good = normal_log_density(self.price - self.usual - PRICE_SLOPE * self.tag, self.usual_var)
        wrong = normal_log_density(self.price - self.usual - PRICE_SLOPE * mean, self.usual_var + PRICE_SLOPE**2 * var)
        return np.exp(np.clip(np.nan_to_num(good - wrong), -_SURE, _SURE))


def claims(tag: FloatArray, price: FloatArray) -> Claims:
    """The claims of products, with what a price usually is of a tag."""
    ratio = price - PRICE_SLOPE * tag
    ratio = ratio[~np.isnan(ratio)]
    usual = float(np.median(ratio)) if len(ratio) else 0.0
    spread = float(1.4826 * np.median(np.abs(ratio - usual))) if len(ratio) else 0.0
    var = (len(ratio) * spread**2 + _RATIO_WORTH * _RATIO_SD**2) / (len(ratio) + _RATIO_WORTH)
    return Claims(tag, price, usual, var)


def fit_tags(facts: Facts, own: Claims) -> TagModel:
    """Learn r* from products that carry a tag; wrong tags lose their weight as they are recognised.

    Parameters
    ----------
    facts : Facts
        One row a tagged product.
    own : Claims
        Their tags, all believable, and prices.
    """
    problem, layout = _problem(facts, own.tag)
    sample = variance_rows(np.arange(len(own.tag)))
    if sample is None:
        problem, variances, wrong = _rounds(problem, own, start(problem), WRONG_SHARE, _ROUNDS)
    else:
        few = facts.take(sample)
        learner, _ = _problem(few, own.tag[sample])
        _, variances, wrong = _rounds(learner, own.take(sample), start(learner), WRONG_SHARE, _ROUNDS)
        problem, _, _ = _rounds(problem, own, variances, wrong, 1)
    return TagModel(posterior_of(problem, solve(problem, variances), layout), wrong, len(own.tag))


def _rounds(
    problem: Problem, own: Claims, variances: Variances, wrong: float, rounds: int
) -> tuple[Problem, Variances, float]:
    """So many rounds: which tags are good, then the variances; a row's weight is P that its tag is good."""
    nothing, path, small = np.zeros(len(problem.outcome)), [variances], merged(problem)
    for _ in range(rounds):
        solved = solve(small, path[-1])
        deviation, _, _ = residuals(small, solved)
        var = np.full(len(nothing), solved.variances.noise + GOOD_SD**2)
        good = good_probability(deviation, nothing, var, wrong, own.likelier(own.tag - deviation, var))
        wrong = max(WRONG_SHARE, (float(np.sum(1 - good)) + WRONG_SHARE * _SHARE_WORTH) / (len(good) + _SHARE_WORTH))
        small = replace(small, row_factor=1 / np.maximum(good, 1e-6))
        path = [*path[-2:], learned(small, solved)]
    return replace(problem, row_factor=small.row_factor), ahead(*path) if rounds > 2 else path[-1], wrong


def remembered(model: TagModel, facts: Facts, own: Claims) -> tuple[FloatArray, FloatArray]:
    """E r* and var r* of every own product, once: its own tag read as a claim, or what its kind suggests."""
    mean, var = expected(model, facts)
    tagged = np.flatnonzero(~np.isnan(own.tag))
    own, m, v = own.take(tagged), mean[tagged], var[tagged]
    found = read(own.tag, m, v, model.wrong_share, own.likelier(m, v))
    mean[tagged], var[tagged] = found.mean, found.var
    return mean, var


def as_csr(rows: SparseRows) -> csr_matrix:
    """The same rows for the solver.

    Examples
    --------
    >>> as_csr(SparseRows(np.array([0, 1]), np.array([2]), np.array([5.0]), 3)).toarray().tolist()
    [[0.0, 0.0, 5.0]]
    """
    return csr_matrix((rows.value, rows.column, rows.start), shape=(len(rows), rows.width))


def _problem(facts: Facts, outcome: FloatArray) -> tuple[Problem, Layout]:
    alone = np.arange(len(facts))
    layout, groups = chosen(facts, TAG_BLOCKS, ("intercept",)), Groups(alone, alone, np.zeros(len(facts)))
    rows = as_csr(design(layout, facts))
    order, apart = apart_first(rows, groups)
    layout = layout.take(order)
    scale = np.full(len(BLOCKS), _LEVEL_SD)
    scale[BLOCKS.index("words")] = _WORD_SD
    scale[BLOCKS.index("brand and sub")] = _PAIR_SD
    problem = Problem(
        rows=rows[:, order],
        outcome=outcome,
        groups=groups,
        block=layout.block,
        fixed=np.zeros(layout.width),
        scale=scale,
        noise_sd=_NOISE_SD,
        item_sd=0.0,
        row_factor=np.ones(len(facts)),
        apart=apart,
    )
    return problem, layout
