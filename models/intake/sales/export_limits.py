"""Where does an export seem to stop?  At a round number of rows or days, or in a stretch without any sale."""

import math
from collections.abc import Iterator

import numpy as np

from models.values.arrays import DayArray
from models.values.problems import Caution
from models.values.sales import Sales

# Rows an export may stop at, by the round number or by what a spreadsheet holds; with the header among them, too.
ROW_LIMITS = (
    100, 200, 250, 500, 1000, 2000, 2500, 5000, 10_000, 20_000, 25_000, 50_000, 65_536, 100_000, 500_000, 1_000_000,
    1_048_576,
)  # fmt: skip
_WITH_HEADER = 1000  # a limit so large is hardly met by chance one row short
DAY_LIMITS = (30, 31, 60, 61, 90, 91, 92, 120, 180, 183, 184, 365, 366, 730)  # common practice, no source
_LEAST_ROWS_A_LIMIT = 30  # sales in a window of days, or goods listed before it, before it looks like a limit
_LEAST_GAP = 28  # days without any sale
_GAPS = 6.0  # times the longest of the shop's usual pauses
_USUAL = 0.98  # quantile of the pauses between days with sales
_LISTED_BEFORE = 0.1  # share of the sales that were listed before the first sale: a shop with a past


def limit_cautions(rows: int, sales: Sales) -> tuple[Caution, ...]:
    """An export that holds just as many rows, or days, as exports often stop at.

    Parameters
    ----------
    rows : int
        Data rows of the file.
    sales : Sales
        What it tells.

    Examples
    --------
    >>> [caution.what for caution in limit_cautions(1000, Sales.blank(0))]
    ['The file holds exactly 1,000 rows: exports often stop at such a number.']
    """
    check = "See whether the export stops there; if it does, export the rest too and give both files."
    cautions = []
    if rows in ROW_LIMITS:
        cautions.append(Caution(f"The file holds exactly {rows:,} rows: exports often stop at such a number.", check))
    elif rows + 1 in ROW_LIMITS and rows + 1 >= _WITH_HEADER:
        what = f"The file holds exactly {rows + 1:,} rows with its header: exports often stop at such a number."
        cautions.append(Caution(what, check))
    sold = sales.sold_on[sales.sold & ~np.isnat(sales.sold_on)]
    if len(sold) >= _LEAST_ROWS_A_LIMIT:
        days = int((sold.max() - sold.min()).astype(int)) + 1
        listed = sales.listed_on[sales.sold]
        before = float(np.mean(listed < sold.min()))
        whole_months = _month_begins(sold.min()) and _month_begins(sold.max() + 1)
        if days in DAY_LIMITS and (before > _LISTED_BEFORE or np.isnat(listed).all()) and not whole_months:
            why = "exports often stop at such a span" if np.isnat(listed).all() else "of goods listed long before"
            what = f"Sales run over exactly {days} days, from {sold.min()} to {sold.max()}: {why}."
            cautions.append(Caution(what, check))
    return tuple(cautions)


def _month_begins(day: np.datetime64) -> bool:
    return bool(day == day.astype("datetime64[M]").astype("datetime64[D]"))


def gap_cautions(sales: Sales) -> tuple[Caution, ...]:
    """A stretch without any sale, much longer than the shop's usual pauses: between sales, before or after them.

    Examples
    --------
    >>> from dataclasses import replace
    >>> day = np.r_[np.arange(60), np.arange(160, 220)].astype("datetime64[D]")
    >>> sales = replace(Sales.blank(120), sold_price=np.full(120, 9.0), sold_on=day)
    >>> gap_cautions(sales)[0].what
    'No sale between 1970-03-01 and 1970-06-10, 101 days: a file may be missing, or an export may have stopped.'
    """
    days: DayArray = np.unique(sales.sold_on[sales.sold & ~np.isnat(sales.sold_on)])
    if len(days) < _LEAST_ROWS_A_LIMIT:
        return ()
    pauses = np.diff(days).astype(int)
    longest = int(np.argmax(pauses))
    usual = float(np.quantile(np.delete(pauses, longest), _USUAL))
    least = max(_LEAST_GAP, _GAPS * usual)
    cautions = [*_before(sales, days[0], least), *_after(sales, days[-1], least)]
    if pauses[longest] >= least:
        what = (
            f"No sale between {days[longest]} and {days[longest + 1]}, {int(pauses[longest])} days: a file may be "
            "missing, or an export may have stopped."
        )
        cautions.append(Caution(what, "Import the sales of that time, if there were any."))
    return tuple(cautions)


def _before(sales: Sales, first: np.datetime64, least: float) -> Iterator[Caution]:
    """Many goods were listed long before the first sale: some of such goods must have sold earlier."""
    begun = np.fmin(sales.first_listed_on, sales.listed_on)
    early = int((begun <= first - np.timedelta64(math.ceil(least), "D")).sum())
    if early >= max(_LEAST_ROWS_A_LIMIT, _LISTED_BEFORE * len(sales)):
        what = (
            f"No sale before {first}, though {early:,} of the goods were listed {math.ceil(least)} days before that or "
            "earlier: the export seems to begin there, and what sold sooner is missing."
        )
        yield Caution(what, "Import the earlier sales too, if you have them.")


def _after(sales: Sales, last: np.datetime64, least: float) -> Iterator[Caution]:
    """Goods were listed long after the last sale, so the sales of that time may be missing."""
    begun = sales.listed_on[~np.isnat(sales.listed_on)]
    if len(begun) and (begun.max() - last).astype(int) >= least:
        what = f"No sale after {last}, though goods were listed until {begun.max()}: the file of sales may stop there."
        yield Caution(what, "Import the sales since then; without them what you listed last looks hard to sell.")
