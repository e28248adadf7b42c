"""How much may the hammer price be?  One rule per goal; the smallest rule binds.

The rules read whole minor units, as they are printed, so that a reader can follow every bid with pencil and paper.
"""

from collections.abc import Mapping

from models.decide.quantiles import lowest_at
from models.decide.terms import highest_bid
from models.values.arrays import FloatArray
from models.values.money import floor_minor, whole_minor
from models.values.settings import Buying, Goals

RULES = ("expected_return", "confidence", "loss_limit", "cash_limit")  # the first of equals binds


def cash_limits(cash: FloatArray, after_pay: FloatArray, goals: Goals) -> dict[str, float | None]:
    """Most cash out that each rule allows.

    Parameters
    ----------
    cash : ndarray of shape (n_draws,)
        Cash proceeds [whole minor units].
    after_pay : ndarray of shape (n_draws,)
        Proceeds after pay [whole minor units].
    goals : Goals
        What the seller demands.

    Returns
    -------
    dict
        A limit on cash out [minor units] for each of `RULES`; None where the rule is off.

    Notes
    -----
    expected_return: E[after pay] / (1 + r).  confidence: the quantile of cash at 1 - confidence.  loss_limit: the
    quantile at loss_chance, plus the loss.  cash_limit: the cash itself.

    Examples
    --------
    >>> import numpy as np
    >>> draws = np.arange(100.0) * 100
    >>> cash_limits(draws, draws - 50, Goals(return_on_cash=0.25, loss_limit=1000.0))
    {'expected_return': 3920.0, 'confidence': 2000.0, 'loss_limit': 1500.0, 'cash_limit': None}
    """
    mean = float(whole_minor(float(after_pay.mean())))
    loss = None if goals.loss_limit is None else lowest_at(cash, goals.loss_chance) + goals.loss_limit
    return {
        "expected_return": mean / (1 + goals.return_on_cash),
        "confidence": lowest_at(cash, 1 - goals.confidence),
        "loss_limit": loss,
        "cash_limit": goals.cash_limit,
    }


def bids_by_rule(limits: Mapping[str, float | None], buying: Buying, pallets: float) -> dict[str, float | None]:
    """Highest hammer price of each rule.

    Parameters
    ----------
    limits : mapping
        Most cash out by rule [minor units]; None where the rule is off.
    buying : Buying
        Buying terms.
    pallets : float
        Pallets that freight is paid for.

    Returns
    -------
    dict
        Hammer prices floored to the minor unit, never below 0; None where the rule is off.

    Examples
    --------
    >>> bids_by_rule({"confidence": 100000.0, "cash_limit": None}, Buying(premium=0.15, freight=0.0), 1)
    {'confidence': 86956.0, 'cash_limit': None}
    """
    return {
        rule: None if limit is None else float(floor_minor(highest_bid(limit, buying, pallets)))
        for rule, limit in limits.items()
    }
