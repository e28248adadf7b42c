"""On which days do we pretend not to know what came next?  From the first day that knew enough, evenly to the end."""

import numpy as np

from models.appraisal.backtest.dated import Dated
from models.values.arrays import DayArray

FEWEST_SALES = 60  # of a history that can be tested at all
FEWEST_KNOWN = 40  # sales known on the first cut-off
KNOWN_SHARE = 0.25  # of all sales, known on the first cut-off: what a young shop erred says little of a grown one
FORTNIGHT = 14  # days; cut-offs are not closer
MOST_ROWS = 400_000  # fitted in all: a long history gets fewer cut-offs
FEWEST_CUT_OFFS = 4


def cut_off_days(history: Dated, most: int) -> DayArray:
    """At most `most` days, all of them before the history's last day; none where there are too few sales."""
    sold_on = np.sort(history.sales.sold_on[history.sold])
    if len(sold_on) < FEWEST_SALES:
        return np.empty(0, dtype="datetime64[D]")
    first = sold_on[max(FEWEST_KNOWN, int(len(sold_on) * KNOWN_SHARE)) - 1]
    span = int((history.end - first).astype(int))
    count = max(1, min(most, affordable(len(history.sales))))
    step = max(FORTNIGHT, -(-span // count))
    return np.arange(first, history.end, step).astype("datetime64[D]")


def affordable(rows: int) -> int:
    """Cut-offs that a history of so many rows is given."""
    return max(FEWEST_CUT_OFFS, MOST_ROWS // max(rows, 1))
