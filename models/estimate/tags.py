"""What tag does a product really carry?  A tag is a claim: a noisy reading of r*, its true log.

ln tag = F + r* + d: d is small where the tag is good; a wrong tag tells nothing.  F sits on all tags of a lot.
"""

from dataclasses import dataclass

import numpy as np

from models.estimate.blocks import Facts, design
from models.estimate.posterior import Posterior
from models.estimate.unseen import unseen_variance
from models.values.arrays import BoolArray, FloatArray, IntArray
from models.values.money import minor_digits

PRICE_SLOPE = 0.9  # of ln price in r*, before the data speak
GOOD_SD = 0.05
WRONG_SHARE = 0.05
# Wrong tags: half are slips of the decimal point, half are anywhere within ten log units.  Common practice, no source.
_ANYWHERE = 0.1
_SLIP_SHARE = 0.5
_TEN = float(np.log(10))
_SLIPS = ((_TEN, 0.4), (-_TEN, 0.3), (2 * _TEN, 0.2), (-2 * _TEN, 0.1))  # log factor and its share of slips
# Honest tags have heavier tails than the normal: this share is spread so many times as wide as the others.
_FAR_SHARE = 0.03
_FAR = 4.0


@dataclass(frozen=True)
class TagModel:
    """How own tags hang on kind, brand and words."""

    posterior: Posterior
    wrong_share: float  # 0..1, never below WRONG_SHARE
    products: int  # own products with a tag


@dataclass(frozen=True)
class Read:
    """r* after a tag was read; arrays of the shape the readings were given in."""

    mean: FloatArray
    var: FloatArray
    good: FloatArray  # P that the tag is good, 0..1


def believable(tag: FloatArray, currency: str) -> BoolArray:
    """True where a tag can be a tag at all: at least .50, below 1,000,000, not nines only from 9999 up.

    Parameters
    ----------
    tag : ndarray of shape (n,)
        Tags [minor units], NaN blank.
    currency : str
        ISO 4217; bounds are in hundredths of it where it has no minor unit.

    Examples
    --------
    >>> believable(np.array([0.0, 1.0, 1999.0, 99999900.0, 999999.0, np.nan]), "USD").tolist()
    [False, False, True, False, False, False]
    """
    amount = np.nan_to_num(tag) / 10.0 ** max(minor_digits(currency), 2)
    whole = np.floor(amount)
    nines = (whole >= 9999) & (np.floor(np.log10(np.maximum(whole, 1) + 1)) == np.log10(np.maximum(whole, 1) + 1))
    return np.asarray((amount >= 0.5) & (amount < 1_000_000) & ~nines, dtype=np.bool_)


def expected(model: TagModel, facts: Facts) -> tuple[FloatArray, FloatArray]:
    """Mean and variance of r* before its tag is read, shape (n_rows,) each [ln minor units]."""
    rows = design(model.posterior.layout, facts)
    unseen = unseen_variance(model.posterior, facts)
    spread = model.posterior.noise_var + model.posterior.variance(rows) + unseen
    return rows.times(model.posterior.mean), spread


def read(
    reading: FloatArray, mean: FloatArray, var: FloatArray, wrong_share: float, likelier: FloatArray | float = 1.0
) -> Read:
    """r* given a reading of it, allowing that the reading is wrong; arrays broadcast against each other.

    Notes
    -----
    With k = v / (v + .05^2) and delta = k (reading - m): E r* = m + P delta, var r* = v (1 - P k) + P (1 - P) delta^2.

    Examples
    --------
    >>> found = read(np.array([3.0, 9.0]), np.zeros(2), np.ones(2), 0.05)
    >>> found.mean.round(2).tolist()
    [1.51, 0.75]
    """
    believed = var / (var + GOOD_SD**2)
    good = good_probability(reading, mean, var + GOOD_SD**2, wrong_share, likelier)
    moved = believed * (reading - mean)
    return Read(mean + good * moved, var * (1 - good * believed) + good * (1 - good) * moved**2, good)


def good_probability(
    reading: FloatArray, mean: FloatArray, var: FloatArray, wrong_share: float, likelier: FloatArray | float = 1.0
) -> FloatArray:
    """P that a tag is good, given how far it lies from what is expected.

    Parameters
    ----------
    likelier : ndarray or float
        How many times as likely a good tag makes what else is known of the product.

    Examples
    --------
    >>> good_probability(np.array([4.0, 9.0]), np.full(2, 4.0), np.full(2, 0.04), 0.05).round(3).tolist()
    [0.999, 0.0]
    """
    good = (1 - wrong_share) * honest_density(reading - mean, var) * likelier
    return np.asarray(good / (good + wrong_share * wrong_density(reading - mean, var)), dtype=np.float64)


def normal_density(deviation: FloatArray, var: FloatArray | float) -> FloatArray:
    """Density of N(0, var) at each deviation.

    Examples
    --------
    >>> normal_density(np.zeros(1), 1.0).round(4).tolist()
    [0.3989]
    """
    return np.asarray(np.exp(-0.5 * deviation**2 / var) / np.sqrt(2 * np.pi * var), dtype=np.float64)


def honest_density(deviation: FloatArray, var: FloatArray) -> FloatArray:
    """Density of an honest tag around what is expected: a few goods are of quite another make than their kind.

    Examples
    --------
    >>> honest_density(np.array([0.0, 4.0]), np.ones(2)).round(4).tolist()
    [0.39, 0.0019]
    """
    far = _FAR_SHARE * normal_density(deviation, _FAR**2 * var)
    return np.asarray((1 - _FAR_SHARE) * normal_density(deviation, var) + far, dtype=np.float64)


def near_probability(deviation: FloatArray, var: FloatArray) -> FloatArray:
    """P that an honest tag is one of the many near its kind, not one of the few far off.

    Examples
    --------
    >>> near_probability(np.array([0.0, 4.0]), np.ones(2)).round(2).tolist()
    [0.99, 0.07]
    """
    near = (1 - _FAR_SHARE) * normal_density(deviation, var)
    return np.asarray(near / honest_density(deviation, var), dtype=np.float64)


def wrong_density(deviation: FloatArray, var: FloatArray) -> FloatArray:
    """Density of a wrong tag around what is expected: a slip of the decimal point, or anything.

    Examples
    --------
    >>> wrong_density(np.array([0.0, np.log(10)]), np.full(2, 0.25)).round(3).tolist()
    [0.05, 0.21]
    """
    slipped = sum(share * normal_density(deviation - slip, var) for slip, share in _SLIPS)
    return np.asarray(_SLIP_SHARE * slipped + (1 - _SLIP_SHARE) * _ANYWHERE, dtype=np.float64)


def normal_log_density(deviation: FloatArray, var: FloatArray | float) -> FloatArray:
    """Ln density of N(0, var) at each deviation.

    Examples
    --------
    >>> normal_log_density(np.zeros(1), 1.0).round(4).tolist()
    [-0.9189]
    """
    return np.asarray(-0.5 * (deviation**2 / var + np.log(2 * np.pi * var)), dtype=np.float64)


def median_by(group: IntArray, value: FloatArray, n_groups: int) -> FloatArray:
    """Median of each group's values, NaN where it has none; shape (n_groups,).

    Examples
    --------
    >>> median_by(np.array([0, 0, 2]), np.array([1.0, 3.0, 5.0]), 3).tolist()
    [2.0, nan, 5.0]
    """
    order = np.lexsort((value, group))
    count = np.bincount(group, minlength=n_groups)
    first = np.concatenate([[0], np.cumsum(count)[:-1]]).astype(np.int64)
    found = np.full(n_groups, np.nan)
    some = np.flatnonzero(count)
    ordered = value[order]
    low, high = first[some] + (count[some] - 1) // 2, first[some] + count[some] // 2
    found[some] = (ordered[low] + ordered[high]) / 2
    return found
