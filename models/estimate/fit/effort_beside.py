"""Do the work log and the timed rows tell of the same work?

Hours of a log may hold photos, breaks or errands that nobody counts in a row's minutes.  Such a habit moves all entries
alike, so many of them are no more witnesses of it than a few.  Where they are further apart than a habit explains, one
of the two is another work: then the timed rows count, which tell of single goods, and the log is named.
"""

from dataclasses import dataclass, replace

import numpy as np

from models.estimate.fit.effort_solve import Solved, noise_sd
from models.estimate.fit.effort_totals import Totals, Work, expected

HABIT_SD = 0.2  # of ln of the hours told over the minutes timed; common practice, no source
FAR = 2.0  # sds


@dataclass(frozen=True)
class Beside:
    """A work log beside timed rows."""

    totals: Totals  # what of it is counted
    times: float  # its minutes over those that the timed rows expect, NaN where there is no log


def beside_rows(totals: Totals, work: Work, alone: Solved) -> Beside:
    """The log as it counts beside timed rows: with a habit of its own, or not at all.

    Parameters
    ----------
    totals : Totals
        The log's entries.
    work : Work
        What the history's rows take under the fit of the timed rows alone.
    alone : Solved
        That fit.

    Returns
    -------
    Beside
        Without any entry where they are two sds or more from what the timed rows expect.
    """
    told = expected(totals, work, alone.covariance, noise_sd(alone.smear))
    weight = told.variance**-1.0
    mean = weight / weight.sum()
    gap, gradient = float(mean @ (totals.ln_minutes - told.ln_minutes)), mean @ told.gradient
    sd = float(np.sqrt(HABIT_SD**2 + 1.0 / weight.sum() + gradient @ alone.covariance @ gradient))
    counted = totals.none() if abs(gap) >= FAR * sd else replace(totals, habit=HABIT_SD**2)
    return Beside(counted, float(np.exp(gap)))
