"""Does a history begin in the middle?  An export of recent sales holds nothing that was listed earlier and sold before.

What is left of the goods listed before is the slow part, with all its days: taken whole it says that hardly anything
sells.  A listing counts from the day it could have been missed no longer (delayed entry).  Where enough goods were
listed after that day they alone teach the pace, for those that had waited already are a choice of slow ones.
"""

from dataclasses import dataclass, replace

import numpy as np
from scipy.stats import poisson

from models.estimate.fit.tempo_exposure import Timed, stock_days
from models.values.arrays import FloatArray

BY_CHANCE = 1e-3  # a whole history would show so few sales by then with a smaller chance than this
STRAYS, STRAY_SHARE = 3, 0.02  # sales before the history begins: mistyped days
# Sold units of goods listed since, to learn the pace from them alone.  In shops of known pace even three were nearer
# than all with those that had waited: root mean square error of the share sold in 90 days .17 against .31.
ENOUGH_SOLD = 3


@dataclass(frozen=True)
class Begun:
    """What may be counted of a history."""

    seen: Timed  # every listing, from the day its product could be seen
    taught: Timed  # those that teach the pace of their kind
    begins: float  # first day of it [days since 1970], NaN: nothing is missing
    earlier: float  # share of the listings that started before


def begun(timed: Timed) -> Begun:
    """The listings without the days on which sales would be missing from the history.

    Parameters
    ----------
    timed : Timed
        Listings with all their days.

    Returns
    -------
    Begun
        The same listings where the history is whole.

    Examples
    --------
    Two lamps are listed on each of eighty days; one of them sells ten days later, the other one is still there.  All of
    that, then the same without the sales before day 60:

    >>> row, listed = np.arange(160), np.repeat(np.arange(80.0), 2)
    >>> end = np.where(row % 2, listed + 10.0, 90.0)
    >>> whole = Timed(row, row, listed, end, end < 90.0, np.ones(160))
    >>> begun(whole).begins, begun(whole.take(end >= 60.0)).begins
    (nan, 60.0)
    """
    begins = first_day(timed)
    if np.isnan(begins):
        return Begun(timed, timed, begins, 0.0)
    seen = from_day(timed, begins)
    return Begun(seen, _taught(timed, seen, begins), begins, float(np.mean(timed.start < begins)))


def first_day(timed: Timed) -> float:
    """Day of the first sale, if goods on offer by then would have sold before it in a whole history.

    Parameters
    ----------
    timed : Timed
        Listings with all their days.

    Returns
    -------
    float
        [days since 1970]; NaN where so few sales by that day can be chance.

    Notes
    -----
    Of the products listed before day S, the sales to expect before S at their pace since.  In a whole history S is the
    first of them, so that number is exponential with mean 1; in a cut one it runs to tens and hundreds.
    """
    sold_on = np.sort(timed.end[timed.sold])
    for day in sold_on[: min(STRAYS, int(STRAY_SHARE * len(sold_on))) + 1].tolist():
        if poisson.cdf(float(np.sum(sold_on < day)), _expected_before(timed, day)) < BY_CHANCE:
            return float(day)
    return float("nan")


def from_day(timed: Timed, day: FloatArray | float) -> Timed:
    """The listings that were still there on a day, or each on its own [days since 1970], counted from then on."""
    from_then_on = replace(timed, start=np.maximum(timed.start, day))
    return from_then_on.take(timed.end >= day)


def _expected_before(timed: Timed, day: float) -> float:
    """Sales before a day of the products listed by then, at their pace since."""
    early = timed.take(timed.start < day)
    if not len(early.row):
        return 0.0
    same = from_day(timed.take(np.isin(timed.product, early.product)), day)
    cut = replace(early, end=np.minimum(early.end, day))
    after = stock_days(same).sum()
    return float(same.sold.sum() / after * stock_days(cut).sum()) if after > 0 else 0.0


def _taught(timed: Timed, seen: Timed, begins: float) -> Timed:
    """Products from their first listing since the history begins, where those are enough; else all from its first day.

    Older listings of such a product count from the same day: its buyers buy either.
    """
    n_products = int(timed.product.max()) + 1
    entry = np.full(n_products, np.inf)
    since = timed.start >= begins
    np.minimum.at(entry, timed.product[since], timed.start[since])
    enough = timed.events[since].sum() >= ENOUGH_SOLD
    return from_day(timed, entry[timed.product]) if enough else seen
