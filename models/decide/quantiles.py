"""What does a share of the draws fall short of?  Proceeds have atoms, so nothing is interpolated.

Everywhere here the quantile at p is the largest C with P(V < C) <= p.
"""

import math
from dataclasses import dataclass

import numpy as np

from models.values.arrays import FloatArray
from models.values.money import whole_minor

_FORGIVEN = 1e-9  # 1 - 0.9 is not 0.1 in binary


def lowest_at(draws: FloatArray, chance: float) -> float:
    """Largest C with P(V < C) <= `chance`.

    Parameters
    ----------
    draws : ndarray of shape (n_draws,)
        Equally likely values, any unit.
    chance : float
        Chance of falling short of C, 0 <= chance < 1.

    Returns
    -------
    float
        One of the draws, in their unit.

    Raises
    ------
    ValueError
        If there are no draws, one is not finite, or `chance` is outside [0, 1).

    Examples
    --------
    >>> lowest_at(np.array([4.0, 1.0, 3.0, 2.0, 5.0]), 0.2)
    2.0
    >>> lowest_at(np.array([0.0, 0.0, 0.0, 0.0, 9.0]), 0.5)
    0.0
    """
    return float(_lowest(_sorted(draws), chance))


def _lowest(rising: FloatArray, chance: float) -> float:
    if not 0 <= chance < 1:
        raise ValueError(f"chance must be in [0, 1), not {chance}")
    return float(rising[min(math.floor(chance * len(rising) + _FORGIVEN), len(rising) - 1)])


def _sorted(draws: FloatArray) -> FloatArray:
    if len(draws) == 0 or not np.isfinite(draws).all():
        raise ValueError("draws must be finite and at least one")
    return draws if (draws[1:] >= draws[:-1]).all() else np.sort(draws)


@dataclass(frozen=True)
class MoneySpread:
    """Mean and quantiles of money as it is printed [whole minor units]."""

    mean: float
    p05: float
    p10: float
    p20: float
    p25: float
    p50: float
    p75: float
    p80: float
    p90: float
    p95: float


@dataclass(frozen=True)
class Spread:
    """Mean and an 80% range, unit of the draws."""

    mean: float
    p10: float
    p50: float
    p90: float


def money_spread(draws: FloatArray) -> MoneySpread:
    """What is printed of a lot's proceeds.

    Parameters
    ----------
    draws : ndarray of shape (n_draws,)
        Proceeds [whole minor units].

    Returns
    -------
    MoneySpread
        The mean is rounded to whole minor units; the quantiles are draws.

    Raises
    ------
    ValueError
        If there are no draws or one is not finite.

    Examples
    --------
    >>> spread = money_spread(np.arange(100.0))
    >>> spread.mean, spread.p05, spread.p20, spread.p95
    (50.0, 5.0, 20.0, 95.0)
    """
    rising = _sorted(draws)
    chances = (0.05, 0.10, 0.20, 0.25, 0.50, 0.75, 0.80, 0.90, 0.95)
    return MoneySpread(float(whole_minor(float(draws.mean()))), *(_lowest(rising, chance) for chance in chances))


def spread(draws: FloatArray) -> Spread:
    """Mean and 80% range of anything drawn.

    Parameters
    ----------
    draws : ndarray of shape (n_draws,)
        Any unit.

    Returns
    -------
    Spread
        In the unit of the draws, not rounded.

    Raises
    ------
    ValueError
        If there are no draws or one is not finite.

    Examples
    --------
    >>> spread(np.arange(11.0))
    Spread(mean=5.0, p10=1.0, p50=5.0, p90=9.0)
    """
    rising = _sorted(draws)
    return Spread(float(draws.mean()), *(_lowest(rising, chance) for chance in (0.1, 0.5, 0.9)))
