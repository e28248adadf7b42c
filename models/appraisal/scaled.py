"""What do the stored sums become under other minutes, bad shares or cost of cash?  Scaled, not drawn again.

Exact in the mean where nothing else would move; which lines are listed, and when, stays as it was evaluated.
"""

import math
from dataclasses import replace

import numpy as np

from models.appraisal.stored import Stored
from models.decide.arrivals import Fate
from models.decide.components import Components
from models.decide.discount import DAYS_A_YEAR
from models.values.arrays import FloatArray
from models.values.settings import Effort, LotTerms, Settings

MINUTES_OF = {
    "minutes_first": "listing_first",
    "minutes_repeat": "listing_repeat",
    "minutes_used_unit": "listing_used",
    "minutes_sort": "minutes_sorting",
    "minutes_pack": "minutes_packing",
}  # setting: component


def scaled(stored: Stored, was: Settings, now: Settings) -> Stored:
    """The stored sums carried from the settings they were drawn under to others; the same object if nothing moves."""
    read = _with_bad_shares(stored, was.lot, now.lot) if was.lot != now.lot else stored
    parts = read.components
    if was.effort != now.effort:
        parts = _with_minutes(parts, was.effort, now.effort)
    before, after = was.goals.yearly_cost_of_cash, now.goals.yearly_cost_of_cash
    if before != after and before > 0:
        parts = _with_cost_of_cash(parts, before, after, stored.ends - stored.paid)
    return read if parts is read.components else replace(read, components=parts)


def usable_share(terms: LotTerms, fate: Fate) -> float:
    """Share of units listed that arrive and work."""
    dead = {Fate.TESTED: terms.dead_share, Fate.UNTESTED: terms.dead_untested_share, Fate.SALVAGE: 0.0}
    return 1.0 - min(1.0, terms.missing_share + dead[fate])


def _with_bad_shares(stored: Stored, was: LotTerms, now: LotTerms) -> Stored:
    """Rows are scaled on reading; only the hours are scaled here: those of packing as their orders, draw by draw."""
    parts = stored.components
    by_fate = np.array([_ratio(usable_share(was, fate), usable_share(now, fate)) for fate in Fate])
    arrived = _ratio(1.0 - was.missing_share, 1.0 - now.missing_share)
    if arrived == 1.0 and (by_fate == 1.0).all():
        return stored
    factor = by_fate[parts.fate]
    sold = _over(factor @ parts.sold_orders, np.ones(len(factor)) @ parts.sold_orders)
    packing, sorting = sold * parts.minutes_packing, arrived * parts.minutes_sorting
    worked = replace(parts, minutes_packing=packing, minutes_sorting=sorting)
    return replace(stored, components=worked, row_factor=factor)


def _with_minutes(parts: Components, was: Effort, now: Effort) -> Components:
    factors = {part: _ratio(getattr(was, name), getattr(now, name)) for name, part in MINUTES_OF.items()}
    return replace(parts, **{part: factor * getattr(parts, part) for part, factor in factors.items() if factor != 1.0})


def _with_cost_of_cash(parts: Components, was: float, now: float, horizon_days: float) -> Components:
    """Every draw's mean discount tells its mean wait; that wait is discounted anew, the horizon's exactly."""
    power = math.log1p(now) / math.log1p(was) - 1.0
    left = math.exp(-horizon_days / DAYS_A_YEAR * (math.log1p(now) - math.log1p(was)))
    return replace(
        parts,
        sold_worth=parts.sold_worth * _over(parts.sold_worth.sum(axis=0), parts.gross_sold) ** power,
        sold_orders=parts.sold_orders * _over(parts.sold_orders.sum(axis=0), parts.orders) ** power,
        leftover_worth=parts.leftover_worth * left,
        leftover_units=parts.leftover_units * left,
    )


def _ratio(was: float, now: float) -> float:
    """1 where there was nothing to scale."""
    return now / was if was > 0 else 1.0


def _over(part: FloatArray, whole: FloatArray) -> FloatArray:
    """Draw by draw; 1 where there is nothing."""
    some = whole > 0
    return np.where(some, part / np.where(some, whole, 1.0), 1.0)
