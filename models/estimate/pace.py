"""How much does this seller list in a usual week, and how many hours is that?  Measured from listing dates."""

from dataclasses import dataclass

import numpy as np

from models.estimate.effort_model import EffortModel
from models.values.sales import Sales
from models.values.settings import Effort

WEEKS, LEAST_WEEKS = 26, 4  # weeks with any listing that are looked at, and needed
LEAST_PACE = 5.0  # units a week; a full-time seller lists more, so a file with fewer is not all of their listing
LEAST_DATED = 0.5  # share of rows with a listing date; fewer do not tell the pace
BUSY = 0.9  # a week busier than nine in ten
Z_BUSY = 1.2815515655446004


@dataclass(frozen=True)
class Pace:
    """The last weeks with any listing; weeks are seven days counted back from the end of what is known."""

    weeks: int  # looked at, at most 26
    left_out: int  # weeks without any listing between them
    since: str  # first day of the oldest of them, ISO 8601
    until: str  # the end of what is known
    units_per_week: float  # median
    busy_units: float  # in the busiest of ten such weeks
    minutes_each: float  # mean listing minutes of a unit
    minutes_sd: float  # how well that is known [ln minutes]; 0 would be exactly
    minutes_learned: bool  # from timings or the work log; else the setting's default
    sold_only: bool  # the history shows no unsold listing: the last weeks listed more than it shows

    @property
    def hours_per_week(self) -> float:
        """Listing hours of the median week."""
        return hours(self.units_per_week, self.minutes_each)

    @property
    def busy_hours(self) -> float:
        """Listing hours of a busy week, also if the minutes are more than they seem."""
        spread = np.hypot(np.log(self.busy_units / self.units_per_week), Z_BUSY * self.minutes_sd)
        return hours(self.units_per_week * float(np.exp(spread)), self.minutes_each)


def hours(units: float, minutes_each: float) -> float:
    """Listing hours of so many units, from six minutes to a whole week.

    Examples
    --------
    >>> hours(61, 14.0)
    14.23
    """
    return round(float(np.clip(units * minutes_each / 60.0, 0.1, 168.0)), 2)


def measured_pace(sales: Sales, known_until: np.datetime64, effort: EffortModel) -> Pace | None:
    """The pace of the last 26 weeks with any listing.

    Parameters
    ----------
    sales : Sales
        The history.
    known_until : datetime64
        Nothing later is looked at.
    effort : EffortModel
        The minutes a unit takes.

    Returns
    -------
    Pace or None
        None where fewer than half of the rows have a listing date, fewer than 4 weeks have listings, or their median
        is under 5 units.

    Notes
    -----
    Weeks without any listing are left out: holidays, an export with a gap.  A history of sold listings only
    undercounts what was listed in the last weeks, and so the hours.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from models.estimate.fit.effort import fit_effort
    >>> days = np.datetime64("2026-03-02") - np.repeat(np.arange(8) * 7, 61)
    >>> sales = replace(Sales.blank(488), listed_on=days, listing_minutes=np.full(488, 14.0))
    >>> pace = measured_pace(sales, np.datetime64("2026-03-02"), fit_effort(sales, np.arange(488)))
    >>> pace.weeks, pace.units_per_week, pace.minutes_learned
    (8, 61.0, True)
    """
    listed = sales.last_listed
    dated = ~np.isnat(listed) & (listed <= known_until)
    if len(sales) == 0 or dated.mean() < LEAST_DATED:
        return None
    week = (known_until.astype("datetime64[D]") - listed[dated]).astype(np.int64) // 7
    units = np.bincount(week, weights=sales.quantity[dated].astype(np.float64))
    busy = np.flatnonzero(units > 0)[:WEEKS]
    median = float(np.median(units[busy])) if len(busy) else 0.0
    if len(busy) < LEAST_WEEKS or median < LEAST_PACE:
        return None
    learned = bool(np.isfinite(effort.unit_minutes))
    return Pace(
        weeks=len(busy),
        left_out=int(busy[-1]) + 1 - len(busy),
        since=str(known_until.astype("datetime64[D]") - 7 * (int(busy[-1]) + 1) + 1),
        until=str(known_until.astype("datetime64[D]")),
        units_per_week=median,
        busy_units=max(float(np.quantile(units[busy], BUSY)), median),
        minutes_each=effort.unit_minutes if learned else Effort().minutes_first,
        minutes_sd=effort.usual_sd,
        minutes_learned=learned,
        sold_only=bool(sales.sold.all()),
    )
