"""When is each line listed, and how long may it then take to sell?  Days are counted from as_of.

The lot waits behind what is in the backlog when it arrives; inside it, what earns most per listing minute comes first.
"""

import datetime as dt
from dataclasses import dataclass
from zoneinfo import ZoneInfo

import numpy as np

from models.decide.backlog import waiting
from models.values.arrays import FloatArray, IntArray
from models.values.settings import Settings

ARRIVAL_DAYS = 10  # the contract's default from as_of


@dataclass(frozen=True)
class Timeline:
    """`listed` of shape (n_lines,): days from as_of to the middle of listing the line's product."""

    paid: float  # days from as_of to payment
    arrives: float  # days from as_of to arrival
    ends: float  # days from as_of to the horizon's end
    listed: FloatArray

    @property
    def window(self) -> FloatArray:
        """Days each line has to sell, from its listing to the horizon's end; 0 where it is listed too late."""
        return np.asarray(np.maximum(0.0, self.ends - self.listed))


def paid_on(settings: Settings, as_of: dt.date, zone: str) -> dt.date:
    """Day of payment: the shop's local date of closes_at, else as_of."""
    closes = settings.lot.closes_at
    return max(as_of, closes.astimezone(ZoneInfo(zone)).date()) if closes else as_of


def arrives_on(settings: Settings, as_of: dt.date, paid: dt.date) -> dt.date:
    """Day of arrival: as given, else ten days after as_of; never before the day of payment, which ends the bidding."""
    return max(settings.lot.arrives_on or as_of + dt.timedelta(days=ARRIVAL_DAYS), paid)


def hours_ahead(settings: Settings, unit_minutes: float, weeks: float) -> float:
    """Listing hours that wait when the lot arrives after `weeks`."""
    backlog = settings.backlog
    pace = backlog.weekly_intake_units * unit_minutes / 60.0 - backlog.hours_per_week
    return float(waiting(np.array(backlog.waiting_units * unit_minutes / 60.0), pace, weeks))


@dataclass(frozen=True)
class Worth:
    """What decides who is listed first; all of shape (n_lines,)."""

    product: IntArray
    value: FloatArray  # expected gross price of the whole line [minor units]
    minutes: FloatArray  # listing minutes of the whole line


def timeline(settings: Settings, as_of: dt.date, paid: dt.date, worth: Worth, unit_minutes: float) -> Timeline:
    """Place every line in the listing queue; lines of one product are listed together."""
    arrives = float((arrives_on(settings, as_of, paid) - as_of).days)
    ahead = hours_ahead(settings, unit_minutes, arrives / 7.0)
    before = _hours_before(worth)
    listed = arrives + 7.0 * (ahead + before) / settings.backlog.hours_per_week
    pays = float((paid - as_of).days)
    return Timeline(pays, arrives, pays + 7.0 * settings.goals.horizon_weeks, listed)


def _hours_before(worth: Worth) -> FloatArray:
    """Listing hours of the lot spent until the middle of each line's product, best earners per minute first."""
    products, of_line = np.unique(worth.product, return_inverse=True)
    minutes = np.bincount(of_line, worth.minutes, len(products))
    value = np.bincount(of_line, worth.value, len(products))
    order = np.argsort(-value / np.maximum(minutes, 1e-9), kind="stable")
    middle = np.empty(len(products))
    middle[order] = np.cumsum(minutes[order]) - minutes[order] / 2.0
    return np.asarray(middle[of_line] / 60.0)
