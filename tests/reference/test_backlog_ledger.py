"""Fluid queue, arrivals 480/h for 20 minutes then 120/h, service 240/h: Mannering & Washburn, Principles of Highway
Engineering and Traffic Analysis.  Little's law, L = 160 at 8 a month: Little & Graves 2008.
150 units a week in and 90 listed grows by 60 units a week: common practice, no source.
600 units waiting at 12 minutes, 15 h a week, 60 or 80 units a week in, a lot of 45 h: our own figures.
"""

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from appraisal_world import answer, demo_lines, demo_sales

from models.appraisal.model import Model
from models.appraisal.training import fit
from models.decide.backlog import BacklogEffect, Joining, backlog_effect, waiting, weeks_until_clear
from models.decide.room import room
from models.values.settings import Backlog, Goals

AS_OF = dt.date(2026, 7, 1)


def effect_of(weekly_intake_units: float, lot_hours: float = 45.0) -> BacklogEffect:
    held = Backlog(hours_per_week=15.0, waiting_units=600.0, weekly_intake_units=weekly_intake_units)
    lot = Joining(units=225.0, hours=np.full(100, lot_hours), weeks=10 / 7)
    return backlog_effect(held, 12.0, lot, weeks=26, as_of=AS_OF)


def test_sixty_units_a_week_forty_weeks_become_fifty_five() -> None:
    effect = effect_of(60.0)
    assert effect.before.weeks_to_clear == pytest.approx(40.0)
    assert effect.after.weeks_to_clear == pytest.approx(55.0)
    assert effect.extra_weeks == pytest.approx(15.0)
    assert effect.before.clears_on == AS_OF + dt.timedelta(weeks=40)
    assert effect.after.clears_on == AS_OF + dt.timedelta(weeks=55)
    assert effect.before.grows_hours_per_week is None
    assert room(effect.after.weeks_to_clear, effect.after.units, Goals(max_weeks_to_clear=104)).holds


def test_eighty_units_a_week_never_clear() -> None:
    effect = effect_of(80.0)
    for one in (effect.before, effect.after):
        assert one.weeks_to_clear is None
        assert one.clears_on is None
        assert one.grows_hours_per_week == pytest.approx(1.0)
    assert effect.extra_weeks is None
    assert not room(effect.after.weeks_to_clear, effect.after.units, Goals(max_weeks_to_clear=104)).holds


def test_intake_that_equals_the_capacity_never_clears_and_grows_by_nothing() -> None:
    effect = effect_of(75.0)
    assert effect.before.weeks_to_clear is None
    assert effect.before.grows_hours_per_week == pytest.approx(0.0, abs=1e-9)


def test_units_ledger_grows_by_sixty_a_week() -> None:
    weeks = [float(waiting(np.array(0.0), 150.0 - 90.0, week)) for week in range(6)]
    assert np.diff(weeks).tolist() == [60.0] * 5


@pytest.mark.parametrize("unit_minutes", [7.0, 12.0])
def test_hours_ledger_grows_by_the_minutes_of_sixty_units(unit_minutes: float) -> None:
    held = Backlog(hours_per_week=90 * unit_minutes / 60, waiting_units=0.0, weekly_intake_units=150.0)
    effect = backlog_effect(held, unit_minutes, Joining(0.0, np.zeros(10), 0.0), weeks=8, as_of=AS_OF)
    assert effect.before.grows_hours_per_week == pytest.approx(60 * unit_minutes / 60)
    hours = [week.hours_before for week in effect.weekly]
    assert (np.diff(hours) * 60 / unit_minutes).tolist() == pytest.approx([60.0] * 8)


def test_fluid_queue() -> None:
    """In minutes: 8 in and 4 served for 20 minutes, then 2 in."""
    peak = float(waiting(np.array(0.0), 8.0 - 4.0, 20.0))
    after_peak = weeks_until_clear(peak, 2.0 - 4.0)
    assert after_peak is not None
    assert (peak, 20.0 + after_peak) == (80.0, 60.0)
    minute = np.arange(61.0)
    queue = [waiting(np.array(0.0), 4.0, at) if at <= 20 else waiting(np.array(peak), -2.0, at - 20) for at in minute]
    delay = float(np.trapezoid(np.array(queue), minute))
    assert delay == pytest.approx(2400.0)
    assert delay / (8 * 20 + 2 * 40) == pytest.approx(10.0)


def test_littles_law() -> None:
    """160 waiting, 8 a month served and none coming in: the last of them leaves after 20 months."""
    assert weeks_until_clear(160.0, -8.0) == 20.0


@pytest.fixture(scope="module")
def untimed() -> Model:
    """A shop that never timed its listings: what waits counts the setting's minutes."""
    sales = demo_sales()
    few = sales.take(np.arange(len(sales) - 300, len(sales)))
    return fit(replace(few, listing_minutes=np.full(300, np.nan)), AS_OF, "USD", lambda share, step: None)


def backlog_of(model: Model, weekly_intake_units: int) -> dict[str, Any]:
    settings = {
        "backlog": {"hours_per_week": 15, "waiting_units": 600, "weekly_intake_units": weekly_intake_units},
        "effort": {"minutes_first": 12},
        "goals": {"max_weeks_to_clear": 104},
    }
    document = answer(demo_lines("manifest_new_brand.csv").take(np.arange(12)), settings, model).document
    return document["backlog"] | {
        "listing": document["hours"]["listing"]["mean"], "room": document["bid_ceiling"]["room"]
    }  # fmt: skip


def test_forty_weeks_through_a_whole_evaluation(untimed: Model) -> None:
    """3 hours a week are left: the lot's own hours take a third as many weeks more."""
    told = backlog_of(untimed, 60)
    assert told["before"]["hours"] == pytest.approx(120.0)
    assert told["before"]["weeks_to_clear"] == pytest.approx(40.0)
    assert told["listing"] > 0
    assert told["extra_weeks"] == pytest.approx(told["listing"] / 3, abs=0.01)
    assert told["room"]["holds"]


def test_never_through_a_whole_evaluation(untimed: Model) -> None:
    told = backlog_of(untimed, 80)
    for side in ("before", "after"):
        assert told[side]["weeks_to_clear"] is None
        assert told[side]["grows_hours_per_week"] == pytest.approx(1.0)
    assert not told["room"]["holds"]
