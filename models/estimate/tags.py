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
WRONG_DENSITY = 0.1  # a wrong tag is anywhere within ten log units
WRONG_SHARE = 0.05
WIDER = 1.2**2  # honest tags have heavier tails than the normal


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
    spread = model.posterior.noise_var * WIDER + model.posterior.variance(rows) + unseen
    return rows.times(model.posterior.mean), spread


def read(reading: FloatArray, mean: FloatArray, var: FloatArray, wrong_share: float) -> Read:
    """r* given a reading of it, allowing that the reading is wrong; arrays broadcast against each other.

    Notes
    -----
    With k = v / (v + .05^2) and delta = k (reading - m): E r* = m + P delta, var r* = v (1 - P k) + P (1 - P) delta^2.

    Examples
    --------
    >>> found = read(np.array([3.0, 9.0]), np.zeros(2), np.ones(2), 0.05)
    >>> found.mean.round(2).tolist()
    [1.38, 0.0]
    """
    believed = var / (var + GOOD_SD**2)
    good = good_probability(reading, mean, var + GOOD_SD**2, wrong_share)
    moved = believed * (reading - mean)
    return Read(mean + good * moved, var * (1 - good * believed) + good * (1 - good) * moved**2, good)


def good_probability(reading: FloatArray, mean: FloatArray, var: FloatArray, wrong_share: float) -> FloatArray:
    """P that a tag is good, given how far it lies from what is expected.

    Examples
    --------
    >>> good_probability(np.array([4.0, 9.0]), np.full(2, 4.0), np.full(2, 0.04), 0.05).round(3).tolist()
    [0.997, 0.0]
    """
    good = (1 - wrong_share) * normal_density(reading - mean, var)
    return np.asarray(good / (good + wrong_share * WRONG_DENSITY), dtype=np.float64)


def normal_density(deviation: FloatArray, var: FloatArray | float) -> FloatArray:
    """Density of N(0, var) at each deviation.

    Examples
    --------
    >>> normal_density(np.zeros(1), 1.0).round(4).tolist()
    [0.3989]
    """
    return np.asarray(np.exp(-0.5 * deviation**2 / var) / np.sqrt(2 * np.pi * var), dtype=np.float64)


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
