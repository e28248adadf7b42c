"""From draws to a decision: the rivals' shade, the rules, the backlog's gate and the figures around the ceiling.

An evaluation and every later reading of it under other terms go through here, so that they cannot differ.
"""

import datetime as dt
import math
from dataclasses import dataclass, replace

import numpy as np

from models.appraisal.stored import Stored
from models.appraisal.timeline import arrives_on
from models.decide.backlog import BacklogEffect, Joining, backlog_effect
from models.decide.ceiling import Ceiling, LotDraws, bid_ceiling, less_pay
from models.decide.components import Components
from models.decide.costs import SellingCosts, selling_costs
from models.decide.figures import BidFigures, bid_curve, figures_at
from models.decide.rivals import shade_factor
from models.decide.room import room
from models.values.settings import Settings

HOUR_DIGITS = 4


@dataclass(frozen=True)
class Decision:
    """Everything the answer says about the whole lot."""

    shade: float  # factor on every unit price
    draws: LotDraws
    ceiling: Ceiling
    at_ceiling: BidFigures | None  # None on pass
    curve: tuple[BidFigures, ...]
    backlog: BacklogEffect


def judge(stored: Stored, settings: Settings) -> Decision:
    """Read the drawn sums under the settings in force."""
    shade = read_shade(stored, settings)
    draws = read_draws(stored, settings, shade)
    backlog = read_backlog(stored, settings)
    ceiling = bid_ceiling(draws, settings, room(backlog.after.weeks_to_clear, backlog.after.units, settings.goals))
    return Decision(
        shade=shade,
        draws=draws,
        ceiling=ceiling,
        at_ceiling=figures_at(ceiling.amount, draws, settings) if ceiling.verdict == "bid" else None,
        curve=bid_curve(ceiling.unrounded, draws, settings),
        backlog=backlog,
    )


def read_ceiling(stored: Stored, settings: Settings) -> Ceiling:
    """The ceiling alone, where nothing around it is asked for."""
    draws = read_draws(stored, settings, read_shade(stored, settings))
    after = read_backlog(stored, settings, weeks=-1).after
    return bid_ceiling(draws, settings, room(after.weeks_to_clear, after.units, settings.goals))


def read_shade(stored: Stored, settings: Settings) -> float:
    """What rivals cost: the factor on every unit price."""
    buying = settings.buying
    return shade_factor(settings.rivals_count, buying.common_share, stored.judgement_sd, buying.bidding)


def read_draws(stored: Stored, settings: Settings, shade: float) -> LotDraws:
    """Proceeds and hours of every draw."""
    total = stored.components
    cash = total.cash(_costs(stored, settings), shade)
    return LotDraws(cash, less_pay(cash, total.hours, settings.goals.hourly_pay), printed_hours(total))


def _costs(stored: Stored, settings: Settings) -> SellingCosts:
    """Costs by row; all of a row's cash is a share of its worth or a cost of its orders, so both carry its factor."""
    costs, factor = selling_costs(settings, stored.components.rows), stored.row_factor
    if factor is None:
        return costs
    return replace(costs, net_share=costs.net_share * factor, order_costs=costs.order_costs * factor)


def printed_hours(total: Components) -> float:
    """Expected hours as they are printed, so that a reader can follow the profit per hour."""
    kinds = (total.minutes_sorting, total.minutes_listing, total.minutes_packing)
    return float(sum(round(float(minutes.mean()) / 60.0, HOUR_DIGITS) for minutes in kinds))


def read_backlog(stored: Stored, settings: Settings, weeks: int | None = None) -> BacklogEffect:
    """The backlog before and after; its projection runs to the horizon, or for some `weeks`."""
    paid = stored.as_of + dt.timedelta(days=stored.paid)
    arrives = (arrives_on(settings, stored.as_of, paid) - stored.as_of).days
    joining = Joining(
        units=stored.listed_units,
        hours=np.asarray(stored.components.minutes_listing / 60.0),
        weeks=arrives / 7.0,
    )
    shown = math.ceil(settings.goals.horizon_weeks) if weeks is None else weeks
    learned = stored.unit_minutes
    unit_minutes = learned if math.isfinite(learned) else settings.effort.minutes_first
    return backlog_effect(settings.backlog, unit_minutes, joining, shown, stored.as_of)
