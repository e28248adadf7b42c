"""What does a sold history leave unsaid, and where does an export seem to stop?"""

import numpy as np

from models.intake.sales.joined import Joined
from models.intake.sales.sale_words import says_several
from models.values.arrays import DayArray, IntArray
from models.values.problems import Caution
from models.values.sales import Sales

ROW_LIMITS = (100, 200, 250, 500, 1000, 2000, 2500, 5000, 10_000, 20_000, 25_000, 50_000, 100_000)
DAY_LIMITS = (30, 31, 60, 61, 90, 91, 92, 120, 180, 183, 184, 365, 366, 730)  # common practice, no source
_LEAST_ROWS_A_LIMIT = 30  # sales that must lie in a window of days before it looks like a limit
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
    sold = sales.sold_on[sales.sold & ~np.isnat(sales.sold_on)]
    if len(sold) >= _LEAST_ROWS_A_LIMIT:
        days = int((sold.max() - sold.min()).astype(int)) + 1
        before = float(np.mean(sales.listed_on[sales.sold] < sold.min())) if sales.sold.any() else 0.0
        whole_months = _month_begins(sold.min()) and _month_begins(sold.max() + 1)
        if days in DAY_LIMITS and before > _LISTED_BEFORE and not whole_months:
            what = (
                f"Sales run over exactly {days} days, from {sold.min()} to {sold.max()}, of goods listed long before."
            )
            cautions.append(Caution(what, check))
    return tuple(cautions)


def _month_begins(day: np.datetime64) -> bool:
    return bool(day == day.astype("datetime64[M]").astype("datetime64[D]"))


def joined_cautions(joined: Joined) -> tuple[Caution, ...]:
    """What all files together could not join, and leave unsaid.

    Examples
    --------
    >>> from models.intake.sales.joined import join_history
    >>> joined_cautions(join_history([]))
    ()
    """
    return (*joined.cautions, *unsaid_cautions(joined.sales), *gap_cautions(joined.sales))


def gap_cautions(sales: Sales) -> tuple[Caution, ...]:
    """A stretch without any sale, much longer than the shop's usual pauses.

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
    if pauses[longest] < max(_LEAST_GAP, _GAPS * usual):
        return ()
    what = (
        f"No sale between {days[longest]} and {days[longest + 1]}, {int(pauses[longest])} days: a file may be missing, "
        "or an export may have stopped."
    )
    return (Caution(what, "Import the sales of that time, if there were any."),)


def counted_cautions(sold: IntArray) -> tuple[Caution, ...]:
    """Units that a file of listings says were sold, whose prices only orders can tell.

    Examples
    --------
    >>> counted_cautions(np.array([2, -1, 4]))[0].what
    'Units that your listings say were sold: 6. What they brought stands in your orders, not here.'
    """
    units = int(sold[sold > 0].sum())
    if not units:
        return ()
    what = f"Units that your listings say were sold: {units}. What they brought stands in your orders, not here."
    return (Caution(what, "Import the orders too, if you have not."),)


def unsaid_cautions(sales: Sales) -> tuple[Caution, ...]:
    """What cannot be learned from what the files do not say.

    Examples
    --------
    >>> [caution.what for caution in unsaid_cautions(Sales.blank(0))]
    []
    """
    if not sales.sold.any():
        return ()
    cautions = []
    listed = ~(np.isnat(sales.listed_on) & np.isnat(sales.first_listed_on))
    if not listed[sales.sold].any():
        what = "No sale has a listing date: how long goods take to sell cannot be learned from these files."
        cautions.append(Caution(what, "Add an export of your listings, live and ended, with their start dates."))
    elif sales.sold.all() and len(sales) >= _LEAST_ROWS_A_LIMIT:
        what = "There are only sold listings: how many never sell cannot be learned, and goods look quick to sell."
        cautions.append(Caution(what, "Add an export of your listings that have not sold."))
    if np.isnat(sales.sold_on[sales.sold]).all():
        what = "No sale has a date: prices count as if they were all of today, and time to sell cannot be learned."
        cautions.append(Caution(what, "Add a column with the day of each sale."))
    several = sum(map(says_several, sales.title.tolist()))
    if several:
        what = (
            f"{several} titles sell several things as one ('lot of 5'): each counts as its quantity says, a lot as one."
        )
        cautions.append(Caution(what, "See that their quantity is 1, or the number of lots sold."))
    return tuple(cautions)
