"""What is money worth that comes later?  Everything is brought back to the day of payment."""

import math

import numpy as np

from models.values.arrays import FloatArray

DAYS_A_YEAR = 365.0


def discount(days: FloatArray, yearly_cost_of_cash: float) -> FloatArray:
    """Worth on the day of payment of one unit of money that comes `days` later.

    Parameters
    ----------
    days : ndarray of any shape
        Days after payment.
    yearly_cost_of_cash : float
        Cost of money tied up for a year, a fraction, at least 0.

    Returns
    -------
    ndarray of the shape of `days`
        (1 + cost)^(-days / 365).

    Raises
    ------
    ValueError
        If the cost is negative.

    Examples
    --------
    >>> discount(np.array([0.0, 365.0]), 0.10).round(4)
    array([1.    , 0.9091])
    """
    if yearly_cost_of_cash < 0:
        raise ValueError(f"yearly_cost_of_cash must be at least 0, not {yearly_cost_of_cash}")
    return np.exp(days * (-math.log1p(yearly_cost_of_cash) / DAYS_A_YEAR))
