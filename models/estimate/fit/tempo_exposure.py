"""How long was each listing on sale, and how long was its product in stock?  Days, unsold listings included."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from models.estimate.tempo_levels import counted
from models.values.arrays import BoolArray, DayArray, FloatArray, IntArray
from models.values.sales import Sales

SHORTEST = 0.5  # days; sold on the day it was listed
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
    """Days of each listing, scaled so that a product's listings add up to the union of their intervals.

    Parameters
    ----------
    timed : Timed
        Listings.

    Returns
    -------
    ndarray of shape (n_timed,)
        [days]

    Examples
    --------
    >>> at = np.array
    >>> two = Timed(at([0, 1]), at([7, 7]), at([0.0, 5.0]), at([10.0, 15.0]), at([True, False]), at([1.0, 1.0]))
    >>> stock_days(two)
    array([7.5, 7.5])
    """
    if not len(timed.row):
        return np.empty(0)
    _, of = np.unique(timed.product, return_inverse=True)
    order = np.lexsort((timed.start, of))
    start, end = timed.start[order], timed.start[order] + timed.on_sale[order]
    apart = of[order] * (float(np.ptp(end)) + float(np.ptp(start)) + 2.0 * SHORTEST + 1.0)  # one product after another
    reached = np.maximum.accumulate(end + apart)
    before = np.concatenate([[-np.inf], reached[:-1]])
    fresh = np.maximum(0.0, end + apart - np.maximum(start + apart, before))
    union, summed = counted(of[order], fresh), counted(of, timed.on_sale)
    return np.asarray(timed.on_sale * (union / summed)[of])


def pieces_of(timed: Timed, days: FloatArray, seasonal: bool) -> Pieces:
    """Stock-days and sales by listing, and by month of the year if asked for."""
    n = len(timed.row)
    if not seasonal:
        return Pieces(np.arange(n), np.full(n, -1), days, timed.events)
    spent = _month_shares(timed)
    last = month_of(timed.end)
    sold = np.flatnonzero(timed.sold)
    spent[sold, last[sold]] = np.maximum(spent[sold, last[sold]], SHORTEST)  # no sale without time to sell in
    spent *= (days / spent.sum(axis=1))[:, None]
    listing, month = np.nonzero(spent)
    events = np.where(month == last[listing], timed.events[listing], 0.0)
    return Pieces(listing, month, spent[listing, month], events)


def month_of(days: FloatArray) -> IntArray:
    """Month of the year, 0 January."""
    return np.floor(days).astype("datetime64[D]").astype("datetime64[M]").astype(np.int64) % MONTHS


def days_by_month(start: FloatArray, end: FloatArray) -> FloatArray:
    """Days of each interval [start, end) in each month of the year.

    Parameters
    ----------
    start, end : ndarray of shape (n,)
        [days since 1970]

    Returns
    -------
    ndarray of shape (n, 12)
        [days], January first.

    Examples
    --------
    >>> days_by_month(np.array([0.0]), np.array([59.0]))[0, :3]
    array([31., 28.,  0.])
    """
    spent = np.zeros((len(start), MONTHS))
    if not len(start):
        return spent
    first = np.floor(start.min()).astype("datetime64[D]").astype("datetime64[M]")
    last = np.ceil(end.max()).astype("datetime64[D]").astype("datetime64[M]")
    bounds = np.arange(first, last + 2)
    edges = _days(bounds.astype("datetime64[D]"))
    for month, (low, high) in zip(bounds.astype(np.int64), pairwise(edges), strict=False):
        spent[:, month % MONTHS] += np.clip(np.minimum(end, high) - np.maximum(start, low), 0.0, None)
    return spent


def _month_shares(timed: Timed) -> FloatArray:
    return days_by_month(timed.start, timed.start + timed.on_sale)


def _days(dates: DayArray) -> FloatArray:
    return dates.astype("datetime64[D]").astype(np.int64).astype(float)
