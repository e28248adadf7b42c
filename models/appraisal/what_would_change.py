"""Which single change would turn a pass into a bid?  Found by reading the stored draws again, step by step.

Everything but one setting stays; whether a bid qualifies is monotone in each of them, so bisection finds the smallest
change on the setting's own grid.
"""

import math
from dataclasses import dataclass, replace
from typing import Any, Literal

import numpy as np

from models.appraisal.held import reread
from models.appraisal.judge import Decision, read_backlog
from models.appraisal.stored import Stored
from models.appraisal.written import setting_text
from models.decide.ceiling import LotDraws, bid_ceiling
from models.decide.room import Room, room
from models.decide.terms import cash_out, next_step
from models.values.changed import value_of, with_setting
from models.values.settings import REGISTRY, Settings

MOST_TOLD = 5


@dataclass(frozen=True)
class Lever:
    """A setting that a seller may move, which way helps, and by how little [memory units]."""

    key: str
    way: Literal["less", "more"]
    grain: float
    least: float | None = None  # beyond which it makes no sense; None: what is legal


LEVERS = (
    Lever("goals.return_on_cash", "less", 0.001),
    Lever("goals.confidence", "less", 0.001),
    Lever("goals.loss_limit", "more", 1.0),
    Lever("goals.loss_chance", "more", 0.001),
    Lever("goals.cash_limit", "more", 1.0),
    Lever("goals.max_weeks_to_clear", "more", 0.1),
    Lever("goals.max_unsold_units", "more", 1.0),
    Lever("backlog.hours_per_week", "more", 0.1),
    Lever("backlog.weekly_intake_units", "less", 0.1),
    Lever("buying.freight", "less", 1.0),
    Lever("lot.pallets", "less", 1.0, least=1.0),
    Lever("lot.current_bid", "less", 1.0),
)  # none of what is not the seller's to change, such as a premium; less pay would also move which lines are listed
_ROOM_KEYS = ("goals.max_weeks_to_clear", "goals.max_unsold_units")


def what_would_change(stored: Stored, settings: Settings, decision: Decision) -> list[dict[str, Any]]:
    """Single changes that give a positive bid that qualifies, smallest first; empty on a bid and where none would.

    `held` says what each keeps as evaluated: a new evaluation may move it too.
    """
    if decision.ceiling.verdict == "bid":
        return []
    draws = decision.draws
    # Quantiles of rising draws are read without sorting again; the rules read quantiles of cash, of the rest the mean.
    reading = _Reading(
        stored, settings, float(draws.cash.min()), replace(draws, cash=np.sort(draws.cash)), decision.ceiling.room
    )
    found = [(lever, start, value) for lever in LEVERS if (start := value_of(settings, lever.key)) is not None
             and (value := reading.smallest(lever, start)) is not None]  # fmt: skip
    found.sort(key=lambda one: _size(*one))
    return [_told(lever.key, start, value, stored, settings) for lever, start, value in found[:MOST_TOLD]]


def _told(key: str, start: float, value: float, stored: Stored, settings: Settings) -> dict[str, Any]:
    to = setting_text(key, value, settings.currency)
    held = reread(stored, settings, with_setting(settings, key, to)).held
    return {"key": key, "from": setting_text(key, start, settings.currency), "to": to, "held": list(held)}


@dataclass(frozen=True)
class _Reading:
    stored: Stored
    settings: Settings
    lowest: float  # cash of the worst draw [minor units]
    draws: LotDraws
    room: Room

    def smallest(self, lever: Lever, start: float) -> float | None:
        """The value nearest to `start` that gives a bid; None where none within the legal range does."""
        far = self._far(lever, start)
        if far is None or far == start or not self._bids(lever.key, far):
            return None
        steps = _steps(lever, start, far)
        short, enough = 0, steps  # `enough` is far itself
        while enough - short > 1:
            middle = (short + enough) // 2
            if self._bids(lever.key, _value(lever, start, far, middle)):
                enough = middle
            else:
                short = middle
        return _value(lever, start, far, enough)

    def _bids(self, key: str, value: float) -> bool:
        group, name = key.split(".")
        changed = replace(self.settings, **{group: replace(getattr(self.settings, group), **{name: value})})
        return bid_ceiling(self.draws, changed, self._room(key, changed)).verdict == "bid"

    def _room(self, key: str, changed: Settings) -> Room:
        if key in _ROOM_KEYS:
            return room(self.room.weeks_to_clear, self.room.unsold_units, changed.goals)
        if key.startswith("backlog."):
            after = read_backlog(self.stored, changed, weeks=-1).after
            return room(after.weeks_to_clear, after.units, changed.goals)
        return self.room

    def _far(self, lever: Lever, start: float) -> float | None:
        """The end of what is legal, or beyond which nothing more is gained."""
        declared = REGISTRY[lever.key]
        if lever.way == "less":
            return min(start, lever.least if lever.least is not None else declared.least or 0.0)
        needs = self._needs().get(lever.key, declared.most)
        return None if needs is None else max(start, needs)

    def _needs(self) -> dict[str, float | None]:
        buying, lot = self.settings.buying, self.settings.lot
        paid = cash_out(next_step(lot.current_bid or 0.0, buying.bid_step), buying, lot.pallets)
        weeks = self.room.weeks_to_clear
        return {
            "goals.max_weeks_to_clear": weeks,
            "goals.max_unsold_units": self.room.unsold_units,
            "goals.cash_limit": math.ceil(paid),
            "goals.loss_limit": math.ceil(paid + max(0.0, -self.lowest)),
        }


def _steps(lever: Lever, start: float, far: float) -> int:
    return max(1, math.ceil(abs(far - start) / lever.grain - 1e-9) + 1)


def _value(lever: Lever, start: float, far: float, step: int) -> float:
    """The step-th value of the grid from `start` towards `far`, written without binary dust."""
    whole = start / lever.grain
    if lever.way == "more":
        reached = (math.floor(whole + 1e-9) + step) * lever.grain
        return min(round(reached, 6), _outward(far, lever))
    return max(round((math.ceil(whole - 1e-9) - step) * lever.grain, 6), far)


def _outward(far: float, lever: Lever) -> float:
    most = REGISTRY[lever.key].most
    rounded = round(math.ceil(far / lever.grain - 1e-9) * lever.grain, 6)
    return rounded if most is None else min(rounded, most)


def _size(lever: Lever, start: float, value: float) -> float:
    """How large a change is: relative to the larger of both; a confidence by its chance of failing."""
    one, other = (1 - start, 1 - value) if lever.key == "goals.confidence" else (start, value)
    return abs(one - other) / max(abs(one), abs(other))
