"""Laws of the backlog's balance."""

import datetime as dt
from dataclasses import replace

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from models.decide.backlog import Joining, backlog_effect
from models.values.settings import Backlog

AS_OF = dt.date(2026, 7, 1)
BACKLOGS = st.builds(
    Backlog,
    hours_per_week=st.floats(1.0, 60.0),
    waiting_units=st.floats(0.0, 2000.0),
    weekly_intake_units=st.floats(0.0, 150.0),
)
LOTS = st.builds(
    lambda mean, sd, weeks: Joining(mean, np.maximum(0.0, mean + sd * np.linspace(-1, 1, 11)), weeks),
    st.floats(0.5, 200.0),
    st.floats(0.0, 30.0),
    st.floats(0.0, 8.0),
)


@given(held=BACKLOGS, lot=LOTS)
def test_a_lot_never_shortens_the_backlog(held: Backlog, lot: Joining) -> None:
    effect = backlog_effect(held, 12.0, lot, weeks=20, as_of=AS_OF)
    assert (effect.before.weeks_to_clear is None) == (effect.after.weeks_to_clear is None)
    assert (effect.before.weeks_to_clear is None) == (effect.before.grows_hours_per_week is not None)
    if effect.extra_weeks is not None:
        assert effect.extra_weeks >= -1e-9
    for week in effect.weekly:
        after = week.hours_after
        assert week.hours_before - 1e-9 <= after.p10 <= after.p50 <= after.p90
    assert effect.peak_hours >= max(week.hours_before for week in effect.weekly) - 1e-9


@given(held=BACKLOGS, lot=LOTS, more=st.floats(0.0, 20.0))
def test_more_hours_a_week_never_lengthen_it(held: Backlog, lot: Joining, more: float) -> None:
    faster = replace(held, hours_per_week=held.hours_per_week + more)
    slow, fast = (backlog_effect(one, 12.0, lot, weeks=20, as_of=AS_OF) for one in (held, faster))
    if slow.after.weeks_to_clear is not None:
        assert fast.after.weeks_to_clear is not None
        assert fast.after.weeks_to_clear <= slow.after.weeks_to_clear + 1e-9
    assert fast.peak_hours <= slow.peak_hours + 1e-9


@given(held=BACKLOGS, lot=LOTS)
def test_when_it_clears_nothing_waits(held: Backlog, lot: Joining) -> None:
    """The projection of the lot's mean hours is empty from weeks_to_clear on, and not before."""
    mean = Joining(lot.units, lot.hours.mean(keepdims=True), lot.weeks)
    effect = backlog_effect(held, 12.0, mean, weeks=40, as_of=AS_OF)
    for week in effect.weekly:
        clears = effect.after.weeks_to_clear
        if clears is not None and week.week >= clears:
            assert week.hours_after.p50 <= 1e-6
        elif lot.weeks <= week.week:
            assert week.hours_after.p50 > -1e-9
            assert clears is None or week.hours_after.p50 > 0
