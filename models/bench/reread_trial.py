"""What does a what-if miss that holds each line's action and time path?  Against the same lot evaluated anew."""

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from models.appraisal.appraise import appraise
from models.appraisal.held import reread
from models.appraisal.judge import read_ceiling
from models.appraisal.model import Model
from models.appraisal.question import Evaluation, Question
from models.appraisal.stored import Stored
from models.appraisal.training import fit
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import DAY_ZERO, World
from models.values.given import Given
from models.values.in_force import in_force
from models.values.lines import Lines
from models.values.problems import Problems
from models.values.settings import Settings

TERMS: Given = {
    "buying": {"freight": 50, "rivals": 3},
    "goals": {"hourly_pay": 10},
    "backlog": {"hours_per_week": 15, "waiting_units": 100},
}
CHANGES: dict[str, tuple[Any, Any]] = {
    "selling.fee_share": (0.08, 0.16),
    "selling.leftover_share": (-0.05, 0.25),
    "selling.bundle_discount": (0.15, 0.40),
    "lot.missing_share": (0.01, 0.05),
    "lot.dead_share": (0.01, 0.08),
    "goals.hourly_pay": (5, 20),
    "goals.yearly_cost_of_cash": (0.05, 0.30),
    "effort.minutes_first": (5, 20),
    "effort.minutes_sort": (1, 4),
    "effort.minutes_pack": (3, 10),
    "backlog.hours_per_week": (10, 25),
    "buying.premium": (0.05, 0.25),
    "goals.confidence": (0.70, 0.90),
}  # low and high end, as documents write them; the last two are exact
SEED = 1
Differences = dict[str, list[float]]


@dataclass(frozen=True)
class RereadTrial:
    """One world and how many of its lots are read again."""

    shape: Shape
    lots: int


def run_reread(asked: RereadTrial) -> Differences:
    """By key, for both ends and every lot: the ceiling read again against the one evaluated anew, less 1."""
    world = World(asked.shape)
    as_of = dt.date.fromisoformat(str(DAY_ZERO + asked.shape.days))
    model = fit(world.history(), as_of, "USD", lambda share, step: None)
    found: Differences = {key: [] for key in CHANGES}
    for lot in world.lots(asked.lots):
        for key, difference in _of_lot(lot.lines, model, as_of):
            found[key].append(difference)
    return found


def _of_lot(lines: Lines, model: Model, as_of: dt.date) -> Iterator[tuple[str, float]]:
    was, first = _evaluated(lines, model, as_of, TERMS)
    stored = Stored.from_bytes(first.components)
    for key, ends in CHANGES.items():
        for value in ends:
            now, anew = _evaluated(lines, model, as_of, changed(TERMS, key, value))
            full = read_ceiling(Stored.from_bytes(anew.components), now).unrounded
            again = read_ceiling(reread(stored, was, now).stored, now).unrounded
            yield key, again / full - 1 if full > 0 else float("nan")


def _evaluated(lines: Lines, model: Model, as_of: dt.date, given: Given) -> tuple[Settings, Evaluation]:
    held = in_force([given], model.learned)
    question = Question(lines, Problems(len(lines), len(lines), 0, ()), (), "lot", held, as_of, SEED)
    return held.settings, appraise(question, model, lambda share, step: None)


def changed(given: Given, key: str, value: Any) -> Given:
    """The settings document with one key more or other."""
    group, _, name = key.partition(".")
    return {**given, group: {**given.get(group, {}), name: value}}
