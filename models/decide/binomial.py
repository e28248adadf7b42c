"""How many of a line's units share the lot's fate?  Binomial draws whose chance differs from draw to draw."""

import numpy as np

from models.values.arrays import FloatArray, IntArray

_MOST = 32  # above it numpy's own sampler is faster than walking up the table
_SURE = 1 - 2**-53  # no uniform is above it


def tail_table(units: int, chance: FloatArray) -> FloatArray | None:
    """P(N <= j) for j = 0, 1, ... as far as any draw can reach: made once for all lines of one quantity.

    Parameters
    ----------
    units : int
        Units of the line, at least 0.
    chance : ndarray of shape (n_draws,)
        Chance of each unit in each draw, 0..1.

    Returns
    -------
    ndarray of shape (n_levels, n_draws), or None
        None for quantities that `binomial_draws` does not need it for.

    Examples
    --------
    >>> tail_table(2, np.array([0.5, 0.1])).round(2)
    array([[0.25, 0.81],
           [0.75, 0.99]])
    """
    if units > _MOST:
        return None
    safe = np.clip(chance, 0.0, 1 - 1e-12)
    mass = (1 - safe) ** units
    levels = [mass]
    for bad in range(1, units):
        if levels[-1].min() >= _SURE:
            break
        mass = mass * ((units - bad + 1) / bad) * (safe / (1 - safe))
        levels.append(np.minimum(levels[-1] + mass, 1.0))
    return np.stack(levels)


def binomial_draws(
    units: int, chance: FloatArray, table: FloatArray | None, generator: np.random.Generator
) -> IntArray:
    """Binomial(units, chance) in each draw.

    Parameters
    ----------
    units : int
        Number of trials, at least 0.
    chance : ndarray of shape (n_draws,)
        Chance of each trial, 0..1.
    table : ndarray of shape (n_levels, n_draws), or None
        From `tail_table` of the same units and chances.
    generator : numpy.random.Generator
        The line's own.

    Returns
    -------
    ndarray of shape (n_draws,)
        Units, 0..`units`.

    Examples
    --------
    >>> from models.values.streams import stream
    >>> chance = np.full(8192, 0.25)
    >>> drawn = binomial_draws(8, chance, tail_table(8, chance), stream(1, "example"))
    >>> int(drawn.min()), round(float(drawn.mean()), 1)
    (0, 2.0)
    """
    if units == 0:
        return np.zeros(len(chance), dtype=np.int64)
    if table is None:
        drawn: IntArray = generator.binomial(units, chance)
        return drawn
    counted: IntArray = (generator.random(len(chance)) >= table).sum(axis=0, dtype=np.int64)
    return counted
