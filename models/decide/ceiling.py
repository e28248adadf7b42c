"""What is the most to bid?  The largest hammer price, down to the bid step, that meets every rule and finds room."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np

from models.decide.room import Room
from models.decide.rules import RULES, bids_by_rule, cash_limits
from models.decide.terms import cash_out, next_step, round_down_to_step, steps_between
from models.values.arrays import FloatArray
from models.values.money import floor_minor, whole_minor
from models.values.settings import Settings


@dataclass(frozen=True)
class LotDraws:
    """One lot's proceeds in every draw, shape (n_draws,), after the rivals' shade [whole minor units]."""

    cash: FloatArray
    after_pay: FloatArray
    hours: float  # expected hours of the lot: sorting, listing and packing


def less_pay(cash: FloatArray, hours: FloatArray, hourly_pay: float) -> FloatArray:
    """Proceeds after pay of every draw.

    Parameters
    ----------
    cash, hours : ndarray of shape (n_draws,)
        Cash proceeds [whole minor units] and the hours of all three kinds.
    hourly_pay : float
        [minor units].

    Returns
    -------
    ndarray of shape (n_draws,)
        [whole minor units], half-even.

    Examples
    --------
    >>> less_pay(np.array([10000.0, 5000.0]), np.array([2.0, 1.0]), 1500.0)
    array([7000., 3500.])
    """
    whole: FloatArray = np.rint(cash - hourly_pay * hours)
    return whole


@dataclass(frozen=True)
class StepsLeft:
    """What is left above the bid that stands."""

    steps: int  # bids on the auction's ladder above it, up to the ceiling
    next_step_cash: float  # what one more step adds to the cash out [whole minor units]


@dataclass(frozen=True)
class Ceiling:
    """Hammer prices [whole minor units]."""

    verdict: Literal["bid", "pass"]
    amount: float  # 0 on pass
    unrounded: float
    binding_rule: str
    by_rule: Mapping[str, float | None]
    room: Room
    steps_left: StepsLeft | None  # None where no current bid is known


def bid_ceiling(draws: LotDraws, settings: Settings, room: Room) -> Ceiling:
    """The bid ceiling with every rule's own.

    Parameters
    ----------
    draws : LotDraws
        Proceeds of the lot.
    settings : Settings
        Buying terms, lot terms and goals in force.
    room : Room
        The backlog's gate.

    Returns
    -------
    Ceiling
        A pass where no positive bid qualifies, the current bid is above the ceiling, or there is no room.

    Raises
    ------
    ValueError
        If there are no draws or one is not finite.

    Examples
    --------
    >>> from models.decide.room import Room
    >>> from models.values.settings import Buying, Goals
    >>> free = Room(True, 4.0, 26.0, 40.0, None)
    >>> settings = Settings(buying=Buying(bid_step=((0.0, 2500.0),), payment_surcharge=0.03, freight=0.0),
    ...                     goals=Goals(cash_limit=200000.0))
    >>> plenty = np.full(100, 9e6)
    >>> got = bid_ceiling(LotDraws(plenty, plenty, 10.0), settings, free)
    >>> got.verdict, got.amount, got.unrounded, got.binding_rule
    ('bid', 167500.0, 168847.0, 'cash_limit')
    """
    buying, lot = settings.buying, settings.lot
    by_rule = bids_by_rule(cash_limits(draws.cash, draws.after_pay, settings.goals), buying, lot.pallets)
    held = {rule: bid for rule in RULES if (bid := by_rule[rule]) is not None}
    binding = min(held, key=lambda rule: held[rule])
    reached = float(floor_minor(round_down_to_step(held[binding], buying.bid_step)))
    open_bid = reached > 0 and (lot.current_bid is None or lot.current_bid <= reached) and room.holds
    return Ceiling(
        "bid" if open_bid else "pass",
        reached if open_bid else 0.0,
        held[binding],
        binding,
        by_rule,
        room,
        _steps_left(reached if room.holds else 0.0, settings),
    )


def _steps_left(reached: float, settings: Settings) -> StepsLeft | None:
    buying, lot = settings.buying, settings.lot
    if lot.current_bid is None:
        return None
    following = next_step(lot.current_bid, buying.bid_step)
    more = cash_out(following, buying, lot.pallets) - cash_out(lot.current_bid, buying, lot.pallets)
    return StepsLeft(steps_between(lot.current_bid, reached, buying.bid_step), float(whole_minor(more)))
