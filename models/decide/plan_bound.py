"""How much can any choice of lots earn?  What cash and hours are worth at the margin, from the linear relaxation."""

from dataclasses import dataclass

import numpy as np

from models.values.arrays import FloatArray

_ROUNDS = 80  # of golden section: the price of an hour is then known to 1e-16 of its range
_NO_TIME = 1e-6  # hours under a hundredth of a second hold no lot back
_GOLDEN = (5**0.5 - 1) / 2


@dataclass(frozen=True)
class Multipliers:
    """Prices of the two limits, at least 0; any such prices give a bound, these about the lowest."""

    of_cash: float  # profit for one more minor unit of cash
    of_hours: float  # [minor units] profit for one more hour
    reduced: FloatArray  # (n_lots,), profit less what its cash and hours are worth [minor units]
    most: float  # no choice of lots within the limits earns more [minor units]


def multipliers(
    profit: FloatArray, cash_out: FloatArray, hours: FloatArray, limits: tuple[float, float]
) -> Multipliers:
    """Marginal worth of cash and of hours.

    Parameters
    ----------
    profit, cash_out : ndarray of shape (n_lots,)
        [minor units]; cash_out is above 0.
    hours : ndarray of shape (n_lots,)
        At least 0.
    limits : tuple
        Most cash [minor units] and most hours.

    Returns
    -------
    Multipliers
        With the bound they give.

    Notes
    -----
    min over lambda, mu >= 0 of lambda C + mu H + sum max(0, profit_i - lambda cash_i - mu hours_i).  It is convex; for
    a given mu the best lambda is the ratio of the lot that a fractional knapsack breaks.

    Examples
    --------
    >>> found = multipliers(np.array([350.0, 200.0]), np.array([600.0, 500.0]), np.ones(2), (1000.0, 9.0))
    >>> round(found.of_cash, 3), round(found.most, 3)  # all of the first, 400 of the 500 that the second takes
    (0.4, 510.0)
    """
    timed = hours > _NO_TIME
    low, high = 0.0, float((np.maximum(profit[timed], 0.0) / hours[timed]).max(initial=0.0))

    def bound(of_hours: float) -> Multipliers:
        left = profit - of_hours * hours
        of_cash = _breaking_ratio(left, cash_out, limits[0])
        reduced = left - of_cash * cash_out
        most = of_cash * limits[0] + of_hours * limits[1] + float(np.maximum(reduced, 0.0).sum())
        return Multipliers(of_cash, of_hours, reduced, most)

    ends = [bound(low), bound(high)]
    for _ in range(_ROUNDS if high > 0 else 0):
        first, second = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
        if bound(first).most <= bound(second).most:
            high = second
        else:
            low = first
    return min([*ends, bound((low + high) / 2)], key=lambda one: one.most)


def _breaking_ratio(worth: FloatArray, cash_out: FloatArray, cash: float) -> float:
    """Worth a minor unit of cash of the first lot that does not fit whole, best ratios first; 0 where all fit."""
    ratio = worth / cash_out
    order = np.argsort(-ratio, kind="stable")
    over = np.flatnonzero(np.cumsum(cash_out[order]) > cash)
    return max(0.0, float(ratio[order[over[0]]])) if len(over) else 0.0
