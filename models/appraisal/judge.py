"""From draws to a decision: the rivals' shade, the rules, the backlog's gate and the figures around the ceiling."""

import math
from dataclasses import dataclass

import numpy as np

from models.appraisal.draw import Drawn
from models.appraisal.prepare import Prepared
from models.appraisal.question import Question
from models.appraisal.timeline import arrives_on
from models.decide.actions import Action
from models.decide.backlog import BacklogEffect, Joining, backlog_effect
from models.decide.ceiling import Ceiling, LotDraws, bid_ceiling
from models.decide.components import Components
from models.decide.figures import BidFigures, bid_curve, figures_at
from models.decide.rivals import shade_factor
from models.decide.room import room
from models.values.arrays import FloatArray

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
    cash_of_line: FloatArray  # (n,), in the order of `Prepared` [minor units]
    after_pay_of_line: FloatArray


def judge(question: Question, lot: Prepared, drawn: Drawn) -> Decision:
    """Read the drawn sums under the settings in force."""
    settings = question.held.settings
    buying, goals = settings.buying, settings.goals
    shade = shade_factor(settings.rivals_count, buying.common_share, lot.prices.judgement_sd, buying.bidding)
    total = drawn.components
    draws = LotDraws(
        cash=total.cash(drawn.costs, shade),
        after_pay=total.after_pay(drawn.costs, shade, goals.hourly_pay),
        hours=printed_hours(total),
    )
    backlog = _backlog(question, lot, drawn)
    held = room(backlog.after.weeks_to_clear, backlog.after.units, goals)
    ceiling = bid_ceiling(draws, settings, held)
    return Decision(
        shade=shade,
        draws=draws,
        ceiling=ceiling,
        at_ceiling=figures_at(ceiling.amount, draws, settings) if ceiling.verdict == "bid" else None,
        curve=bid_curve(ceiling.unrounded, draws, settings),
        backlog=backlog,
        cash_of_line=drawn.lines.cash(shade),
        after_pay_of_line=drawn.lines.after_pay(shade, goals.hourly_pay),
    )


def printed_hours(total: Components) -> float:
    """Expected hours as they are printed, so that a reader can follow the profit per hour."""
    kinds = (total.minutes_sorting, total.minutes_listing, total.minutes_packing)
    return float(sum(round(float(minutes.mean()) / 60.0, HOUR_DIGITS) for minutes in kinds))


def _backlog(question: Question, lot: Prepared, drawn: Drawn) -> BacklogEffect:
    settings = question.held.settings
    arrives = (arrives_on(settings, question.as_of) - question.as_of).days
    listed = drawn.lines.action == Action.LIST
    joining = Joining(
        units=float(lot.lines.quantity[listed].sum()),
        hours=np.asarray(drawn.components.minutes_listing / 60.0),
        weeks=max(0, arrives) / 7.0,
    )
    weeks = math.ceil(settings.goals.horizon_weeks)
    return backlog_effect(settings.backlog, lot.unit_minutes, joining, weeks, question.as_of)
