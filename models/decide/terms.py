"""What does a lot cost at a hammer price, and which bid does a limit on cash allow?  Money in minor units."""

import math
from collections.abc import Sequence

from models.values.settings import Buying

Steps = Sequence[tuple[float, float]]  # (from, step) [minor units], from rising and starting at 0
_FORGIVEN = 1e-6  # [minor units] what binary fractions may lose


def cash_rate(buying: Buying) -> float:
    """Cash paid for each unit of hammer price: premium, then tax on both, then the surcharge on all of that.

    Parameters
    ----------
    buying : Buying
        Buying terms; shares are fractions.

    Returns
    -------
    float
        Share of the hammer price, at least 1.

    Examples
    --------
    >>> round(cash_rate(Buying(premium=0.15, tax_rate=0.08, payment_surcharge=0.03)), 6)
    1.27926
    """
    return (1 + buying.premium) * (1 + buying.tax_rate) * (1 + buying.payment_surcharge)


def fixed_cash(buying: Buying, pallets: float) -> float:
    """Cash paid whatever the hammer price: freight and other fees.

    Parameters
    ----------
    buying : Buying
        Buying terms [minor units].
    pallets : float
        Pallets that freight is paid for.

    Returns
    -------
    float
        Fixed cash out [minor units].

    Examples
    --------
    >>> fixed_cash(Buying(freight=25000.0, other_fees=1500.0), pallets=2)
    51500.0
    """
    return buying.freight * pallets + buying.other_fees


def cash_out(hammer: float, buying: Buying, pallets: float) -> float:
    """Everything paid to own the lot at one hammer price.

    Parameters
    ----------
    hammer : float
        The winning bid [minor units].
    buying : Buying
        Buying terms.
    pallets : float
        Pallets that freight is paid for.

    Returns
    -------
    float
        Cash out [minor units], not rounded.

    Examples
    --------
    >>> round(cash_out(72000.0, Buying(premium=0.15, freight=0.0), pallets=1), 2)
    82800.0
    """
    return hammer * cash_rate(buying) + fixed_cash(buying, pallets)


def highest_bid(limit: float, buying: Buying, pallets: float) -> float:
    """Largest hammer price whose cash out does not exceed a limit: the inverse of `cash_out`.

    Parameters
    ----------
    limit : float
        Most cash out [minor units].
    buying : Buying
        Buying terms.
    pallets : float
        Pallets that freight is paid for.

    Returns
    -------
    float
        Hammer price [minor units], not rounded, never below 0.

    Examples
    --------
    >>> round(highest_bid(82800.0, Buying(premium=0.15, freight=0.0), pallets=1), 2)
    72000.0
    """
    return max(0.0, (limit - fixed_cash(buying, pallets)) / cash_rate(buying))


def round_down_to_step(bid: float, steps: Steps) -> float:
    """Largest bid the auction accepts that is not above `bid`.

    Parameters
    ----------
    bid : float
        Hammer price [minor units], at least 0.
    steps : sequence of (from, step)
        From each `from` on, bids rise by its `step` [minor units].

    Returns
    -------
    float
        A bid on the ladder [minor units].

    Examples
    --------
    >>> round_down_to_step(168847.0, ((0.0, 2500.0),))
    167500.0
    >>> round_down_to_step(13900.0, ((0.0, 500.0), (10000.0, 1000.0)))
    13000.0
    """
    start, step = _rung(bid + _FORGIVEN, steps)
    return start + math.floor((bid + _FORGIVEN - start) / step) * step


def next_step(bid: float, steps: Steps) -> float:
    """Smallest bid the auction accepts that is above `bid`.

    Parameters
    ----------
    bid : float
        Hammer price [minor units], at least 0.
    steps : sequence of (from, step)
        From each `from` on, bids rise by its `step` [minor units].

    Returns
    -------
    float
        A bid on the ladder [minor units].

    Examples
    --------
    >>> next_step(9800.0, ((0.0, 500.0), (10000.0, 1000.0))), next_step(10000.0, ((0.0, 500.0), (10000.0, 1000.0)))
    (10000.0, 11000.0)
    """
    _, step = _rung(bid + _FORGIVEN, steps)
    above = [start for start, _ in steps if start > bid + _FORGIVEN]
    return min([round_down_to_step(bid, steps) + step, *above])


def steps_between(low: float, high: float, steps: Steps) -> int:
    """Number of bids on the ladder above `low` and not above `high`.

    Parameters
    ----------
    low, high : float
        Hammer prices [minor units], at least 0.
    steps : sequence of (from, step)
        From each `from` on, bids rise by its `step` [minor units].

    Returns
    -------
    int
        0 where `high` is not above `low`.

    Examples
    --------
    >>> steps_between(9000.0, 13000.0, ((0.0, 500.0), (10000.0, 1000.0)))
    5
    """
    ends = [start for start, _ in steps[1:]] + [math.inf]
    total = 0
    for (start, step), end in zip(steps, ends, strict=True):
        count = math.ceil((end - start) / step - _FORGIVEN) if end < math.inf else math.inf
        total += max(0, _rungs(high, start, step, count) - _rungs(low, start, step, count))
    return total


def _rungs(bid: float, start: float, step: float, count: float) -> int:
    """Bids from `start` on, by `step`, at most `count` of them, that are not above `bid`."""
    if bid + _FORGIVEN < start:
        return 0
    return int(min(count, math.floor((bid + _FORGIVEN - start) / step) + 1))


def _rung(bid: float, steps: Steps) -> tuple[float, float]:
    return [one for one in steps if one[0] <= bid][-1]
