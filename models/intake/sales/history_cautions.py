"""What does a sold history leave unsaid?"""

import numpy as np

from models.intake.sales.export_limits import gap_cautions
from models.intake.sales.joined import Joined
from models.intake.sales.sale_words import says_several
from models.values.arrays import BoolArray, IntArray
from models.values.problems import Caution
from models.values.sale_parts import KNOWN, LIVE, SalePart
from models.values.sales import Sales

_FEWEST = 30  # sales that a share can be told of
_FEW_LISTED = 0.5  # share of sales with a day of listing, below which it is said; common practice, no source


def joined_cautions(joined: Joined) -> tuple[Caution, ...]:
    """What all files together could not join, and leave unsaid.

    Examples
    --------
    >>> from models.intake.sales.joined import join_history
    >>> joined_cautions(join_history([]))
    ()
    """
    return (*joined.cautions, *unsaid_cautions(joined.sales), *gap_cautions(joined.sales))


def counted_cautions(sold: IntArray, part: SalePart) -> tuple[Caution, ...]:
    """Units that a file of listings says were sold, whose prices only orders can tell.

    Parameters
    ----------
    sold : ndarray of shape (n_rows,)
        Units that each row counts as sold, below zero where it does not count.
    part : SalePart
        What the file says; where it counts none, a listing that sold is one unit or its quantity.

    Examples
    --------
    >>> from models.values.sales import Sales
    >>> counted_cautions(np.array([2, -1, 4]), SalePart.plain(Sales.blank(0)))[0].what
    'Units that your listings say were sold: 6. What they brought stands in your orders, not here.'
    """
    known = part.sales.quantity[part.role == KNOWN]
    units = int(sold[sold > 0].sum()) if (sold >= 0).any() else int(np.maximum(known, 1).sum())
    if not units:
        return ()
    what = f"Units that your listings say were sold: {units}. What they brought stands in your orders, not here."
    return (Caution(what, "Import the orders too, if you have not."),)


def live_cautions(part: SalePart) -> tuple[Caution, ...]:
    """A file of listings tells what was for sale when it was made, and rarely when that was.

    Examples
    --------
    >>> from models.values.sales import Sales
    >>> live_cautions(SalePart(Sales.blank(1), np.array([LIVE]), np.array([0])))[0].what.partition(".")[0]
    'Listings that were still for sale when the file was made: 1'
    """
    live = int((part.role == LIVE).sum())
    if not live:
        return ()
    day = part.as_of
    taken = f"it was taken to be {day}, its latest day" if day != part.made_on else f"its own word is {day}"
    when = "" if np.isnat(day) else f": {taken}, and units sold later are taken off"
    said = "The file says" if day == part.made_on else "The file does not say"
    what = (
        f"Listings that were still for sale when the file was made: {live:,}. {said} which day that was{when}. "
        "What is left counts as unsold until the latest day in all your files."
    )
    return (Caution(what, "Export sales and listings on one day; beside older sales goods look quicker to sell."),)


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
    elif sales.sold.all() and len(sales) >= _FEWEST:
        what = "There are only sold listings: how many never sell cannot be learned, and goods look quick to sell."
        cautions.append(Caution(what, "Add an export of your listings that have not sold."))
    cautions += _half_listed(listed, sales)
    if np.isnat(sales.sold_on[sales.sold]).all():
        what = "No sale has a date: prices count as if they were all of today, and time to sell cannot be learned."
        cautions.append(Caution(what, "Give the day of each sale with its year, in one column."))
    several = sum(map(says_several, sales.title.tolist()))
    if several:
        titles = "1 title sells" if several == 1 else f"{several:,} titles sell"
        what = f"{titles} several things as one ('lot of 5'): each counts as its quantity says, a lot as one."
        cautions.append(Caution(what, "See that their quantity is 1, or the number of lots sold."))
    return tuple(cautions)


def _half_listed(listed: BoolArray, sales: Sales) -> list[Caution]:
    """Sales or listings of which too few have a day of listing to speak for the others."""
    cautions = []
    sold, known = int(sales.sold.sum()), int(listed[sales.sold].sum())
    if sold >= _FEWEST and 0 < known < _FEW_LISTED * sold:
        what = f"Only {known:,} of {sold:,} sales have a listing date: time to sell is learned from these."
        cautions.append(Caution(what, "Add an export of your listings, live and ended, with their start dates."))
    waiting, blank = ~sales.sold, ~sales.sold & ~listed
    if blank.any() and known and blank.sum() > _FEW_LISTED * waiting.sum():
        what = (
            f"Listings that have not sold, without a listing date: {int(blank.sum()):,} of {int(waiting.sum()):,}. How "
            "long they have waited is not known, so goods look quicker to sell than they are."
        )
        cautions.append(Caution(what, "Add the day each of them was listed."))
    return cautions
