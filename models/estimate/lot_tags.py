"""Which of a lot's tags are believed, and what follows for each line?  A known product keeps its own remembered tag.

One factor F may sit on all tags of a lot; it is judged by the products the shop knows, a little by the others, and
integrated out on a grid.  What moves with F is shared by the lot, the rest is the product's own.
"""

from dataclasses import dataclass

import numpy as np

from models.estimate.blocks import Facts
from models.estimate.lot_facts import remembered
from models.estimate.lot_kin import Kin, kin_of, told_by_kin
from models.estimate.price_model import PriceModel
from models.estimate.products import Matched
from models.estimate.sibling_tags import agreed_tags, strays
from models.estimate.tags import (
    GOOD_SD,
    PRICE_SLOPE,
    believable,
    expected,
    honest_density,
    normal_density,
    read,
    wrong_density,
)
from models.values.arrays import BoolArray, FloatArray, IntArray
from models.values.lines import Lines

GRID: FloatArray = np.arange(-250, 251, dtype=np.float64) * 0.02
_PRIOR = 0.9 * normal_density(GRID, 0.02**2) + 0.1 * normal_density(GRID, 1.0)
_NEAR_SD = 0.10  # a known product's tag in another lot may differ by so much more
_OTHERS_WORTH = 6.0  # lines of goods never sold count as at most so many: a lot may honestly be dearer goods
_NEGLIGIBLE = 1e-3
_WRONG_SHARE = 0.08  # at least, in a manifest: its tags are the claims of who sells the lot


@dataclass(frozen=True)
class Factor:
    """What is known of the factor on all tags of the lot."""

    at: FloatArray  # (n_grid,) log units
    weight: FloatArray  # (n_grid,) sums to 1
    checked: int  # known products whose own tag it was judged by

    @property
    def mean(self) -> float:
        """Expected log factor."""
        return float(self.weight @ self.at)

    @property
    def sd(self) -> float:
        """Its standard deviation."""
        return float(np.sqrt(self.weight @ (self.at - self.mean) ** 2))


@dataclass(frozen=True)
class LotTags:
    """Arrays of shape (n_lines,)."""

    value: FloatArray  # r* as priced [ln minor units]
    own_var: FloatArray  # variance that is the product's own
    shared: FloatArray  # sd that moves with the lot's factor, signed
    no_tag: FloatArray  # 1 where there is no tag to go by
    good: FloatArray  # P that the line's tag is good, NaN where it was not asked
    low: FloatArray  # ordinary range for such goods [minor units]
    high: FloatArray
    believable: BoolArray  # the line's own tag can be a tag at all
    agreed: FloatArray  # the tag that lines of the product agree on [minor units], NaN none
    stray: BoolArray  # the line's own tag is another
    remembered: IntArray  # own product whose tag was taken, -1 none
    factor: Factor


@dataclass(frozen=True)
class _Groups:
    """A lot's products that have to be judged by their tags."""

    of_line: IntArray  # (n_lines,) group of each line
    line: IntArray  # (n_groups,) the line that stands for the group


def read_tags(lines: Lines, matched: Matched, model: PriceModel, facts: Facts) -> LotTags:
    """Read every tag of a lot at once."""
    own = remembered(matched, model)
    good = believable(lines.tag_each, model.currency)
    if not model.tagged:
        return _without(lines, own, good)
    groups = _groups(lines, matched)
    group_own = own[groups.line]
    kind = facts.take(groups.line)
    mean, var = expected(model.tags, kind)
    known = group_own >= 0
    mean[known], var[known] = model.products.tag[group_own[known]], model.products.tag_var[group_own[known]]
    ln_tag = np.log(np.where(good, lines.tag_each, np.nan))
    reading = agreed_tags(groups.of_line[good], ln_tag[good], mean)
    own_tagged = known & ~np.isnan(model.products.own_tag[group_own])
    wrong_share = max(_WRONG_SHARE, model.tags.wrong_share)
    factor = lot_factor(reading, mean, var, (own_tagged, ~known), wrong_share)
    value, own_var, shared, trust = mean.copy(), var.copy(), np.zeros(len(mean)), np.full(len(mean), np.nan)
    asked = np.flatnonzero(~known & ~np.isnan(reading))
    value[asked], own_var[asked], shared[asked], trust[asked] = _mixed(
        reading[asked], (mean[asked], var[asked]), kin_of(model.tags.posterior, kind).take(asked), factor,
        wrong_share,
    )  # fmt: skip
    own_var[known] = 0.0  # it is part of the product's own effect
    untagged = np.where(known, np.isnan(model.products.own_tag[group_own]), np.isnan(reading))
    reach = np.exp(1.645 * np.sqrt(var))
    line = groups.of_line
    return LotTags(
        value[line], own_var[line], shared[line], untagged[line].astype(np.float64), trust[line],
        (np.exp(mean) / reach)[line], (np.exp(mean) * reach)[line], good,
        np.exp(reading)[line], strays(line, ln_tag, reading) & ~lines.assorted, own, factor,
    )  # fmt: skip


def lot_factor(
    reading: FloatArray, mean: FloatArray, var: FloatArray, which: tuple[BoolArray, BoolArray], wrong_share: float
) -> Factor:
    """Posterior of the lot's factor on the grid.

    Parameters
    ----------
    reading, mean, var : ndarray of shape (n_products,)
        Ln tag as claimed (NaN none), what is expected of it, and that expectation's variance.
    which : pair of ndarray of shape (n_products,)
        Products with own tags, each counted once; products never sold, counted as at most six in all.
    wrong_share : float
        Share of wrong tags, 0..1.

    Examples
    --------
    >>> known = np.ones(3, dtype=bool)
    >>> factor = lot_factor(np.full(3, 4.4), np.full(3, 4.0), np.full(3, 0.001), (known, ~known), 0.05)
    >>> round(factor.mean, 2), factor.checked
    (0.4, 3)
    """
    given = ~np.isnan(reading)
    known, other = which[0] & given, which[1] & given
    total = np.log(_PRIOR)
    for chosen, near, worth in ((known, _NEAR_SD, np.inf), (other, 0.0, _OTHERS_WORTH)):
        if np.any(chosen):
            wide = var[chosen] + GOOD_SD**2 + near**2
            away = reading[chosen][:, None] - GRID - mean[chosen][:, None]
            density = honest_density(away, wide[:, None])
            wrong = wrong_density(away, wide[:, None])
            likely = np.log((1 - wrong_share) * density + wrong_share * wrong).sum(axis=0)
            total += likely * min(1.0, worth / int(chosen.sum()))
    weight = np.exp(total - total.max()) if np.any(given) else np.exp(total) * (GRID == 0)
    keep = weight > _NEGLIGIBLE * weight.max()
    return Factor(GRID[keep], weight[keep] / weight[keep].sum(), int(known.sum()))


def _mixed(
    reading: FloatArray, expected_of: tuple[FloatArray, FloatArray], kin: Kin, factor: Factor, wrong_share: float
) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    """r* over the grid: value, own variance, sd shared with the factor, P good.

    Doubt never raises the mean: of all that `total` holds only the variance within a case, good or wrong, counts.
    """
    mean, var = expected_of
    at = reading[:, None] - factor.at
    moved, var = told_by_kin(at - mean[:, None], var, kin, wrong_share)
    found = read(at, mean[:, None] + moved, var, wrong_share)
    within = var * (1 - found.good * var / (var + GOOD_SD**2))
    centre = found.mean @ factor.weight
    apart = found.mean - centre[:, None]
    total = found.var @ factor.weight + apart**2 @ factor.weight
    shared = apart @ (factor.weight * (factor.at - factor.mean)) / max(factor.sd, 1e-12)
    value = centre - 0.5 * PRICE_SLOPE * (total - within @ factor.weight)
    return value, np.maximum(total - shared**2, 0.0), shared, found.good @ factor.weight


def _groups(lines: Lines, matched: Matched) -> _Groups:
    """Lines by product; the first in the order of their words stands for the product, whatever the file's order."""
    _, of_line = np.unique(matched.product, return_inverse=True)
    words = zip(lines.description.tolist(), lines.brand.tolist(), lines.category.tolist(), strict=True)
    rank = {text: number for number, text in enumerate(sorted(set(words)))}
    words = zip(lines.description.tolist(), lines.brand.tolist(), lines.category.tolist(), strict=True)
    order = np.lexsort((np.array([rank[text] for text in words]), of_line))
    _, first = np.unique(of_line[order], return_index=True)
    return _Groups(of_line, order[first])


def _without(lines: Lines, own: IntArray, good: BoolArray) -> LotTags:
    """The history has no tags to learn from: the lot's are not used."""
    zeros, unknown = np.zeros(len(lines)), np.full(len(lines), np.nan)
    factor = Factor(np.zeros(1), np.ones(1), 0)
    return LotTags(
        zeros,
        zeros,
        zeros,
        zeros,
        unknown,
        unknown,
        unknown,
        good,
        unknown,
        np.zeros(len(lines), dtype=np.bool_),
        own,
        factor,
    )
