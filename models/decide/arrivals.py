"""Which units of a lot arrive and work?  Missing and dead units share their lot's fate.

The bad share of each condition is drawn once for the lot, one uniform for all conditions; the units of a line are then
binomial.  What a line draws depends on its key and the lot's alone: not on the order of the lines, nor on how they are
sliced.
"""

from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from scipy.special import betaincinv

from models.decide.binomial import binomial_draws, tail_table
from models.values.arrays import CodeArray, FloatArray, IntArray, TextArray
from models.values.conditions import CONDITIONS, Condition
from models.values.settings import LotTerms
from models.values.streams import DRAWS, stream

STRENGTH = 30.0  # 400 bad units of one lot say about as much as 31 units of different lots


class Fate(IntEnum):
    """Which bad share a line's units have."""

    TESTED = 0  # missing or dead
    UNTESTED = 1  # what names no condition was hardly tested
    SALVAGE = 2  # missing alone: they are dead as listed


_FATES = {Condition.UNTESTED: Fate.UNTESTED, Condition.SALVAGE: Fate.SALVAGE}
_OF_CONDITION = np.array(
    [*(_FATES.get(one, Fate.TESTED) for one in CONDITIONS), Fate.UNTESTED], dtype=np.int64
)  # the last one, -1, is unknown


@dataclass(frozen=True)
class BadShares:
    """Share of a lot's units that do not arrive usable; rows are condition codes, the last one (-1) unknown."""

    drawn: FloatArray  # (n_conditions + 1, DRAWS), missing or dead
    missing: FloatArray  # (n_conditions + 1,), share of the bad units that are missing, the others being dead
    lot_key: str = ""  # the lot's own streams


@dataclass(frozen=True)
class Arrived:
    """Whole units of each line and draw, shape (n_lines, DRAWS): saleable + dead + missing = quantity."""

    saleable: FloatArray
    dead: FloatArray  # they bring nothing and take sorting minutes
    missing: FloatArray  # they bring nothing and take nothing


def fates(condition: CodeArray) -> IntArray:
    """Fate of each line.

    Parameters
    ----------
    condition : ndarray of shape (n_lines,)
        Condition codes, -1 unknown.

    Returns
    -------
    ndarray of shape (n_lines,)
        `Fate` codes.

    Examples
    --------
    >>> fates(np.array([0, 3, 4, 5, -1], dtype=np.int8)).tolist()
    [0, 0, 1, 2, 1]
    """
    return np.asarray(_OF_CONDITION[condition])


def bad_shares(terms: LotTerms, seed: int, lot_key: str = "") -> BadShares:
    """The lot's bad share by condition, in every draw.

    Parameters
    ----------
    terms : LotTerms
        missing_share, dead_share and dead_untested_share, fractions of units.
    seed : int
        The evaluation's seed.
    lot_key : str
        What tells this lot from others that are drawn together with it.

    Returns
    -------
    BadShares
        Fractions.

    Notes
    -----
    p_c ~ Beta(30 pi_c, 30 (1 - pi_c)) with pi = missing_share + dead_share; untested or unknown missing_share +
    dead_untested_share; salvage missing_share alone, being dead as listed.

    Examples
    --------
    >>> shares = bad_shares(LotTerms(missing_share=0.02, dead_share=0.03), seed=1)
    >>> round(float(shares.drawn[0].mean()), 2), round(float(shares.missing[0]), 2)
    (0.05, 0.4)
    """
    uniform = stream(seed, "arrival", lot_key).random(DRAWS)
    by_fate = {Fate.TESTED: terms.dead_share, Fate.UNTESTED: terms.dead_untested_share, Fate.SALVAGE: 0.0}
    dead = [by_fate[Fate(fate)] for fate in _OF_CONDITION.tolist()]
    means = [min(1.0, terms.missing_share + share) for share in dead]
    drawn = {mean: _beta(mean, uniform) for mean in set(means)}
    missing = [min(1.0, terms.missing_share / mean) if mean > 0 else 0.0 for mean in means]
    return BadShares(np.stack([drawn[mean] for mean in means]), np.array(missing), lot_key)


def _beta(mean: float, uniform: FloatArray) -> FloatArray:
    if mean <= 0 or mean >= 1:
        return np.full(len(uniform), min(max(mean, 0.0), 1.0))
    drawn: FloatArray = betaincinv(STRENGTH * mean, STRENGTH * (1 - mean), uniform)
    return drawn


def arrived_units(quantity: IntArray, condition: CodeArray, keys: TextArray, shares: BadShares, seed: int) -> Arrived:
    """Saleable, dead and missing units of a slice of lines.

    Parameters
    ----------
    quantity : ndarray of shape (n_lines,)
        Units listed, at least 0.
    condition : ndarray of shape (n_lines,)
        Condition codes, -1 unknown.
    keys : ndarray of shape (n_lines,)
        What a line is, as text.  Two lines with one key share every draw: number repeated lines apart.
    shares : BadShares
        The lot's, the same for every slice.
    seed : int
        The evaluation's seed.

    Returns
    -------
    Arrived
        Units.

    Raises
    ------
    ValueError
        If the arrays differ in length or a quantity is negative.

    Examples
    --------
    >>> from models.values.arrays import texts
    >>> shares = bad_shares(LotTerms(), seed=1)
    >>> got = arrived_units(np.array([400]), np.array([4], dtype=np.int8), texts(["drill"]), shares, seed=1)
    >>> int((got.saleable + got.dead + got.missing).min()), round(float(got.dead.mean()) / 400, 2)
    (400, 0.25)
    """
    if not len(quantity) == len(condition) == len(keys) or (quantity < 0).any():
        raise ValueError("quantity, condition and keys must be of one length, quantities at least 0")
    dead = np.zeros((len(quantity), DRAWS))
    missing = np.zeros_like(dead)
    by_kind: dict[tuple[int, int], list[int]] = {}
    for at, kind in enumerate(zip(quantity.tolist(), condition.tolist(), strict=True)):
        by_kind.setdefault(kind, []).append(at)
    for (units, code), lines in by_kind.items():
        table = tail_table(units, shares.drawn[code])
        for at in lines:
            generator = stream(seed, "arrival of a line", f"{shares.lot_key}\x1f{keys[at]}")
            bad = binomial_draws(units, shares.drawn[code], table, generator)
            some = np.flatnonzero(bad)
            missing[at, some] = generator.binomial(bad[some], shares.missing[code])
            dead[at] = bad - missing[at]
    return Arrived(quantity[:, None] - dead - missing, dead, missing)
