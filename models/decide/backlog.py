"""How long does the listing work wait, before this lot and with it?  A weekly fluid balance, first in first out.

Hours wait, come in at a steady pace and are worked off at a steady pace; the lot joins when it arrives.  The same
balance holds for units.
"""

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from models.decide.quantiles import lowest_at
from models.values.arrays import FloatArray
from models.values.settings import Backlog

_NO_PACE = 1e-9  # [hours a week] below it a backlog does not shrink: it is what binary fractions lose


@dataclass(frozen=True)
class Joining:
    """What the lot adds to the backlog."""

    units: float  # expected units that will be listed
    hours: FloatArray  # (n_draws,), listing hours
    weeks: float  # from as_of until it arrives, at least 0


@dataclass(frozen=True)
class Clearing:
    """A backlog and when it is worked off; weeks count from as_of."""

    units: float
    hours: float
    weeks_to_clear: float | None  # None: never, because as much comes in as is worked off
    clears_on: dt.date | None
    grows_hours_per_week: float | None  # only where it never clears; at least 0


@dataclass(frozen=True)
class HoursSpread:
    """Hours waiting: an 80% range around the median."""

    p10: float
    p50: float
    p90: float


@dataclass(frozen=True)
class Week:
    """Hours waiting at the end of one week; week 0 is as_of."""

    week: int
    hours_before: float
    hours_after: HoursSpread


@dataclass(frozen=True)
class BacklogEffect:
    """The backlog without the lot and with it."""

    before: Clearing
    after: Clearing
    extra_weeks: float | None  # None where it never clears
    peak_hours: float  # most expected hours waiting at one time with the lot, within the weeks shown
    weekly: tuple[Week, ...]


def waiting(start: FloatArray, pace: float, weeks: float) -> FloatArray:
    """Hours or units that wait some weeks later; never below 0.

    Parameters
    ----------
    start : ndarray of any shape
        Waiting now, at least 0.
    pace : float
        What comes in less what is worked off, a week.
    weeks : float
        At least 0.

    Returns
    -------
    ndarray of the shape of `start`
        In the unit of `start`.

    Examples
    --------
    >>> waiting(np.array([600.0, 10.0]), pace=-30.0, weeks=4)
    array([480.,   0.])
    """
    return np.maximum(0.0, start + pace * weeks)


def weeks_until_clear(hours: float, pace: float) -> float | None:
    """Weeks until nothing waits, fractional; None where as much comes in as is worked off.

    Parameters
    ----------
    hours : float
        Waiting now, at least 0 (or units, with a pace in units).
    pace : float
        What comes in less what is worked off, a week.

    Returns
    -------
    float or None
        Weeks from now.

    Examples
    --------
    >>> weeks_until_clear(120.0, 12.0 - 15.0), weeks_until_clear(120.0, 16.0 - 15.0)
    (40.0, None)
    """
    return hours / -pace if pace < -_NO_PACE else None


def backlog_effect(
    backlog: Backlog, unit_minutes: float, joining: Joining, weeks: int, as_of: dt.date
) -> BacklogEffect:
    """The backlog's projection before and after the lot.

    Parameters
    ----------
    backlog : Backlog
        hours_per_week, waiting_units and weekly_intake_units in force.
    unit_minutes : float
        Mean minutes to list a unit of what waits and comes in.
    joining : Joining
        The lot; the expected path reads its mean hours.
    weeks : int
        Weeks of the projection from as_of; below 0: no projection.
    as_of : date
        Day 0.

    Returns
    -------
    BacklogEffect
        Hours, units, weeks and dates.

    Raises
    ------
    ValueError
        If the lot arrives before as_of or the hours are not finite.

    Notes
    -----
    backlog(t) = max(0, backlog + (intake - capacity) t), a jump by the lot's hours when it arrives.  After the lot:
    weeks to clear = arrival + (what waits then + the lot) / (capacity - intake).

    References
    ----------
    Little & Graves 2008, Little's law. doi:10.1007/978-0-387-73699-0_5

    Examples
    --------
    >>> held = Backlog(hours_per_week=15.0, waiting_units=600.0, weekly_intake_units=60.0)
    >>> lot = Joining(units=200.0, hours=np.full(10, 45.0), weeks=1.0)
    >>> effect = backlog_effect(held, 12.0, lot, weeks=26, as_of=dt.date(2026, 7, 1))
    >>> effect.before.weeks_to_clear, effect.after.weeks_to_clear, effect.extra_weeks
    (40.0, 55.0, 15.0)
    >>> effect.after.clears_on.isoformat(), effect.peak_hours
    ('2027-07-21', 162.0)
    """
    if not joining.weeks >= 0 or not np.isfinite(joining.hours).all():
        raise ValueError("the lot must arrive on as_of or later, with finite hours")
    start = backlog.waiting_units * unit_minutes / 60
    pace = backlog.weekly_intake_units * unit_minutes / 60 - backlog.hours_per_week
    lot = float(joining.hours.mean())
    clear = weeks_until_clear(start, pace)
    joined = weeks_until_clear(float(waiting(np.array(start), pace, joining.weeks)) + lot, pace)
    then = None if clear is None or joined is None else (joining.weeks + joined if lot > 0 else clear)
    extra = None if clear is None or then is None else then - clear
    before = _clearing(backlog.waiting_units, start, clear, pace, as_of)
    after = _clearing(backlog.waiting_units + joining.units, start + lot, then, pace, as_of)
    return BacklogEffect(
        before, after, extra, _peak(start, pace, joining, weeks), _weekly(start, pace, joining, range(weeks + 1))
    )


def _clearing(units: float, hours: float, weeks: float | None, pace: float, as_of: dt.date) -> Clearing:
    return Clearing(units, hours, weeks, _date_after(as_of, weeks), max(0.0, pace) if weeks is None else None)


def _date_after(as_of: dt.date, weeks: float | None) -> dt.date | None:
    """The day on which the last hour is worked; None also where the calendar ends first."""
    if weeks is None:
        return None
    try:
        return as_of + dt.timedelta(days=math.ceil(weeks * 7 - _NO_PACE))
    except OverflowError:
        return None


def _with_lot(start: float, pace: float, joining: Joining, week: float) -> FloatArray:
    """Hours waiting at one moment in every draw; the lot counts from the moment it arrives."""
    if week < joining.weeks:
        return np.full(len(joining.hours), float(waiting(np.array(start), pace, week)))
    there = float(waiting(np.array(start), pace, joining.weeks))
    return waiting(there + joining.hours, pace, week - joining.weeks)


def _weekly(start: float, pace: float, joining: Joining, weeks: Sequence[int]) -> tuple[Week, ...]:
    if not weeks:
        return ()
    # What waits rises with the lot's hours, so its quantiles are those of the hours, carried along.
    spread = replace(joining, hours=np.array([lowest_at(joining.hours, chance) for chance in (0.1, 0.5, 0.9)]))
    shown = []
    for week in weeks:
        low, middle, high = _with_lot(start, pace, spread, week).tolist()
        shown.append(Week(week, float(waiting(np.array(start), pace, week)), HoursSpread(low, middle, high)))
    return tuple(shown)


def _peak(start: float, pace: float, joining: Joining, weeks: int) -> float:
    """A fluid peaks at the beginning, when the lot arrives, or at the end."""
    mean = Joining(joining.units, joining.hours.mean(keepdims=True), joining.weeks)
    moments = (0.0, joining.weeks, max(float(weeks), joining.weeks))
    return max(float(_with_lot(start, pace, mean, moment)[0]) for moment in moments)
