"""How long was each listing on sale, and how long was its product in stock?  Days, unsold listings included."""

from dataclasses import dataclass

import numpy as np

from models.estimate.tempo_levels import counted
from models.values.arrays import BoolArray, DayArray, FloatArray, IntArray
from models.values.sales import Sales

SHORTEST = 0.5  # days; sold on the day it was listed
MIDDAY = 0.5  # goods come and go at any hour: a sale on the first of a month has half a day of it
SEASON_DAYS = 400.0  # a shorter history cannot tell the month from the trend
MONTHS = 12


@dataclass(frozen=True)
class Timed:
    """The listings whose time on sale is known; arrays of shape (n_timed,)."""

    row: IntArray  # index in the sales
    product: IntArray
    start: FloatArray  # days since 1970
    end: FloatArray  # day sold, else the day it ended or the end of what is known
    sold: BoolArray
    units: FloatArray

    @property
    def on_sale(self) -> FloatArray:
        """Days on sale, at least half a day."""
        return np.maximum(self.end - self.start, SHORTEST)

    @property
    def until(self) -> FloatArray:
        """Where its days on sale end [days since 1970]."""
        return self.start + self.on_sale

    @property
    def events(self) -> FloatArray:
        """Units sold."""
        return np.where(self.sold, self.units, 0.0)

    def take(self, kept: BoolArray) -> "Timed":
        """The listings where `kept` is true."""
        return Timed(**{name: getattr(self, name)[kept] for name in self.__dataclass_fields__})


@dataclass(frozen=True)
class Pieces:
    """Stock-days of one listing in one month of the year; arrays of shape (n_pieces,)."""

    listing: IntArray  # index in `Timed`
    month: IntArray  # 0 January; -1 where months are not told apart
    days: FloatArray
    events: FloatArray


def timed_listings(sales: Sales, product: IntArray, known_until: np.datetime64) -> Timed:
    """Listings with a known start, and a known end if they sold.

    Parameters
    ----------
    sales : Sales
        The history; a sale after `known_until` was then still unsold.
    product : ndarray of shape (n_rows,)
        Product of each row.
    known_until : datetime64
        End of what is known.

    Returns
    -------
    Timed
        Rows that start after they end, or after `known_until`, tell nothing and are left out.
    """
    start = sales.first_listed
    sold = known_sold(sales, known_until)
    last = np.where(sales.ended_on < known_until, sales.ended_on, known_until)
    end = np.where(sold, sales.sold_on, last).astype("datetime64[D]")
    with_dates = ~np.isnat(start) & ~np.isnat(end) & ~(sales.sold & np.isnat(sales.sold_on))
    row = np.flatnonzero(with_dates & (start <= end))
    return Timed(row, product[row], _days(start[row]), _days(end[row]), sold[row], sales.quantity[row].astype(float))


def known_sold(sales: Sales, known_until: np.datetime64) -> BoolArray:
    """True where a row is a sale made by `known_until`; a sale without a day counts."""
    return np.asarray(sales.sold & ~(sales.sold_on > known_until))


def stock_days(timed: Timed) -> FloatArray:
    """Days of each listing, one day of a product shared out among its listings on sale then.

    Parameters
    ----------
    timed : Timed
        Listings.

    Returns
    -------
    ndarray of shape (n_timed,)
        [days]; a product's listings add up to the union of their intervals: buyers come to it, not to each unit.

    Examples
    --------
    >>> at = np.array
    >>> two = Timed(at([0, 1]), at([7, 7]), at([0.0, 5.0]), at([10.0, 15.0]), at([True, False]), at([1.0, 1.0]))
    >>> stock_days(two)
    array([7.5, 7.5])
    """
    clock, each = _Clock(timed), np.arange(len(timed.row))
    return clock.at(timed.until, each) - clock.at(timed.start, each)


def pieces_of(timed: Timed, seasonal: bool) -> Pieces:
    """Stock-days and sales by listing, and by month of the year if asked for."""
    if not seasonal:
        n = len(timed.row)
        return Pieces(np.arange(n), np.full(n, -1), stock_days(timed), timed.events)
    spent = stock_days_by_month(timed)
    last = month_of(timed.end)
    listing, month = np.nonzero(spent)
    events = np.where(month == last[listing], timed.events[listing], 0.0)
    return Pieces(listing, month, spent[listing, month], events)


def month_of(days: FloatArray) -> IntArray:
    """Month of the year, 0 January."""
    return _month(days) % MONTHS


def stock_days_by_month(timed: Timed) -> FloatArray:
    """The days of `stock_days`, each in the month of the year in which it was.

    Parameters
    ----------
    timed : Timed
        Listings.

    Returns
    -------
    ndarray of shape (n_timed, 12)
        [days], January first.

    Examples
    --------
    Two lamps are listed on the first of a year and one of them sells a month later; the other one then has each day
    alone.

    >>> at, none = np.array, np.zeros(2)
    >>> two = Timed(at([0, 1]), at([7, 7]), none, at([31.0, 58.5]), at([True, False]), np.ones(2))
    >>> stock_days_by_month(two)[:, :3]
    array([[15.25,  0.25,  0.  ],
           [15.25, 27.75,  0.  ]])
    """
    n = len(timed.row)
    first, last = _month(timed.start + MIDDAY), _month(timed.until + MIDDAY)
    times = last - first + 1
    listing = np.repeat(np.arange(n), times)
    month = first[listing] + np.arange(len(listing)) - np.repeat(np.cumsum(times) - times, times)
    low = np.maximum(timed.start[listing], _first_day(month) - MIDDAY)
    high = np.minimum(timed.until[listing], _first_day(month + 1) - MIDDAY)
    clock = _Clock(timed)
    days = clock.at(high, listing) - clock.at(low, listing)
    return counted(listing * MONTHS + month % MONTHS, days, n * MONTHS).reshape(n, MONTHS)


class _Clock:
    """Time of each product's listings, slowed down to 1/k while k of them are on sale at once."""

    def __init__(self, timed: Timed) -> None:
        _, of = np.unique(timed.product, return_inverse=True)
        start, until = timed.start, timed.until
        span = float(until.max() - start.min()) + 1.0 if len(of) else 0.0
        self.apart = of * span  # one product after another
        steps = np.concatenate([start + self.apart, until + self.apart])
        order = np.argsort(steps, kind="stable")
        on_sale = np.cumsum(np.repeat([1, -1], len(of))[order])[:-1]
        self.steps = steps[order]
        slowed = np.diff(self.steps) / np.maximum(on_sale, 1) * (on_sale > 0)
        self.spent = np.concatenate([[0.0], np.cumsum(slowed)])

    def at(self, day: FloatArray, listing: IntArray) -> FloatArray:
        """Reading of a listing on each day [days]."""
        return np.interp(day + self.apart[listing], self.steps, self.spent) if len(day) else np.empty(0)


def _month(days: FloatArray) -> IntArray:
    """Months since 1970."""
    return np.floor(days).astype("datetime64[D]").astype("datetime64[M]").astype(np.int64)


def _first_day(month: IntArray) -> FloatArray:
    return _days(month.astype("datetime64[M]"))


def _days(dates: DayArray) -> FloatArray:
    return dates.astype("datetime64[D]").astype(np.int64).astype(float)
