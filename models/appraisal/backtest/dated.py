"""Which rows of a history can be walked through day by day?  Those that say when they were listed or sold."""

import datetime as dt
from dataclasses import dataclass, replace

import numpy as np

from models.appraisal.known import in_content_order, known_sales
from models.values.arrays import BoolArray, DayArray, day
from models.values.sales import Sales


@dataclass(frozen=True)
class Dated:
    """Arrays of shape (n_rows,)."""

    sales: Sales
    start: DayArray  # the day a row was listed first, else sold
    is_listed: BoolArray  # `start` is a day of listing
    end: np.datetime64  # the last day that the history tells of
    undated: int  # rows left out: nobody can say whether a cut-off knew them

    @property
    def sold(self) -> BoolArray:
        """True where a price above zero was fetched by the end of the history."""
        return np.asarray(np.nan_to_num(self.sales.sold_price) > 0, dtype=np.bool_)


def dated(sales: Sales, as_of: dt.date) -> Dated:
    """The rows known on `as_of` that have the days they need: a sale its day of sale, a listing its day of listing."""
    known = in_content_order(known_sales(sales, day(as_of)))
    with_day = np.where(known.sold, ~np.isnat(known.sold_on), ~np.isnat(known.first_listed))
    kept = _without_late_listing(known.take(with_day))
    first = kept.first_listed
    is_listed = ~np.isnat(first)
    start = np.where(is_listed, first, kept.sold_on).astype("datetime64[D]")
    days = np.concatenate([start, kept.sold_on[kept.sold]])
    end = days.max() if len(days) else day(as_of)
    return Dated(kept, start, is_listed, end, int(len(known) - len(kept)))


def _without_late_listing(sales: Sales) -> Sales:
    """A listing after its own sale is a mistyped day; else no cut-off would know the sale for a while."""
    late, blank = sales.first_listed > sales.sold_on, np.datetime64("NaT", "D")
    days = {name: np.where(late, blank, getattr(sales, name)) for name in ("listed_on", "first_listed_on")}
    return replace(sales, **days)
