"""The backlog against a plain weekly ledger, and its edges."""

import datetime as dt

import numpy as np
import pytest

from models.decide.backlog import Joining, backlog_effect
from models.values.settings import Backlog

AS_OF = dt.date(2026, 7, 1)
HOURS = np.array([20.0, 40.0, 60.0, 80.0])


@pytest.mark.parametrize("arrives", [0, 2, 5])
@pytest.mark.parametrize("intake", [0.0, 40.0, 75.0, 100.0])
@pytest.mark.parametrize("waits", [0.0, 10.0, 400.0])
def test_weekly_recursion(arrives: int, intake: float, waits: float) -> None:
    """backlog(t+1) = max(0, backlog(t) + intake - capacity), the lot joining at the start of its week."""
    held = Backlog(hours_per_week=15.0, waiting_units=waits, weekly_intake_units=intake)
    effect = backlog_effect(held, 12.0, Joining(100.0, HOURS, float(arrives)), weeks=12, as_of=AS_OF)
    level, with_lot = waits * 0.2, np.full(4, waits * 0.2)
    for shown in effect.weekly:
        if shown.week == arrives:
            with_lot = with_lot + HOURS
        assert shown.hours_before == pytest.approx(level)
        assert shown.hours_after.p50 == pytest.approx(np.sort(with_lot)[2])
        assert (shown.hours_after.p10, shown.hours_after.p90) == pytest.approx((with_lot.min(), with_lot.max()))
        level, with_lot = (np.maximum(0.0, one + intake * 0.2 - 15.0) for one in (level, with_lot))
    assert [shown.week for shown in effect.weekly] == list(range(13))


def test_an_empty_backlog_waits_for_the_lot() -> None:
    effect = backlog_effect(Backlog(), 12.0, Joining(100.0, HOURS, 10 / 7), weeks=26, as_of=AS_OF)
    assert effect.before.weeks_to_clear == 0.0
    assert effect.before.clears_on == AS_OF
    assert effect.after.weeks_to_clear == pytest.approx(10 / 7 + 50 / 15)
    assert effect.after.clears_on == AS_OF + dt.timedelta(days=34)  # 33.3 days
    assert effect.extra_weeks == effect.after.weeks_to_clear
    assert (effect.after.hours, effect.after.units, effect.peak_hours) == (50.0, 100.0, 50.0)


def test_a_lot_in_the_middle_of_a_week_finds_what_is_left_then() -> None:
    held = Backlog(hours_per_week=15.0, waiting_units=150.0)  # 30 h
    effect = backlog_effect(held, 12.0, Joining(100.0, HOURS, 1.5), weeks=4, as_of=AS_OF)
    assert effect.peak_hours == pytest.approx(30 - 1.5 * 15 + 50)
    assert effect.after.weeks_to_clear == pytest.approx(1.5 + (7.5 + 50) / 15)
    assert effect.weekly[2].hours_after.p10 == pytest.approx(7.5 + 20 - 0.5 * 15)


def test_a_growing_backlog_peaks_at_the_end() -> None:
    held = Backlog(hours_per_week=10.0, waiting_units=0.0, weekly_intake_units=60.0)
    effect = backlog_effect(held, 12.0, Joining(100.0, HOURS, 1.0), weeks=10, as_of=AS_OF)
    assert effect.peak_hours == pytest.approx(50 + 2 * 10)
    assert (effect.after.weeks_to_clear, effect.extra_weeks, effect.after.clears_on) == (None, None, None)
    assert effect.after.grows_hours_per_week == pytest.approx(2.0)


def test_a_lot_without_listing_work_changes_nothing() -> None:
    held = Backlog(hours_per_week=15.0, waiting_units=600.0)
    effect = backlog_effect(held, 12.0, Joining(0.0, np.zeros(4), 20.0), weeks=26, as_of=AS_OF)
    assert effect.after == effect.before
    assert effect.extra_weeks == 0.0


def test_a_date_beyond_the_calendar_is_left_out() -> None:
    held = Backlog(hours_per_week=0.1, waiting_units=1e9)
    effect = backlog_effect(held, 12.0, Joining(100.0, HOURS, 0.0), weeks=4, as_of=AS_OF)
    assert effect.after.weeks_to_clear is not None
    assert effect.after.clears_on is None


@pytest.mark.parametrize("joining", [Joining(1.0, HOURS, -1.0), Joining(1.0, np.array([np.nan]), 0.0)])
def test_what_makes_no_sense_is_refused(joining: Joining) -> None:
    with pytest.raises(ValueError, match="must arrive"):
        backlog_effect(Backlog(), 12.0, joining, weeks=4, as_of=AS_OF)
