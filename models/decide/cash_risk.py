"""What does one more step up cost in risk?  The chance of losing cash at a bid, and the loss to expect in money."""

from dataclasses import dataclass

import numpy as np

from models.decide.terms import cash_out
from models.values.arrays import FloatArray
from models.values.money import whole_minor
from models.values.settings import Settings


@dataclass(frozen=True)
class CashRisk:
    """Money in whole minor units, the chance a fraction."""

    bid: float
    cash_out: float
    chance_of_cash_loss: float
    expected_loss: float  # mean of what cash proceeds fall short of the cash out, nothing where they do not


NOT_BOUGHT = CashRisk(0.0, 0.0, 0.0, 0.0)


def cash_risk(bid: float, cash: FloatArray, settings: Settings) -> CashRisk:
    """The risk of one winning bid.

    Parameters
    ----------
    bid : float
        Hammer price [minor units].
    cash : ndarray of shape (n_draws,)
        Cash proceeds, after the rivals' shade [whole minor units].
    settings : Settings
        Buying terms in force.

    Returns
    -------
    CashRisk
        Chance and money, from the cash out as it is printed.

    Raises
    ------
    ValueError
        If there are no draws.

    Notes
    -----
    chance_of_cash_loss = P(V < C), expected_loss = E[max(C - V, 0)], V the cash proceeds and C the cash out: raising C
    by a little adds that little times P(V < C) to the expected loss.

    Examples
    --------
    >>> from models.values.settings import Buying
    >>> settings = Settings(buying=Buying(freight=0.0))
    >>> cash_risk(80000.0, np.array([82000.0, 90000.0, 150000.0, 160000.0]), settings)
    CashRisk(bid=80000.0, cash_out=92000.0, chance_of_cash_loss=0.5, expected_loss=3000.0)
    """
    if len(cash) == 0:
        raise ValueError("draws must be at least one")
    paid = float(whole_minor(cash_out(bid, settings.buying, settings.lot.pallets)))
    short = np.maximum(paid - cash, 0.0)
    return CashRisk(bid, paid, float((cash < paid).mean()), float(whole_minor(float(short.mean()))))
