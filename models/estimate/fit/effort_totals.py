"""What does "40 items in 5 hours" say?  One equation on the SUM of 40 listings' minutes, whatever each of them took.

The items are those of the history's rows that were listed on that day, or in the week up to it; where the history
does not show them, so many items of its usual mix, narrowed to the kind and category that the entry names.  An item is
what the seller counts: a unit where the day's own rows hold about so many units, else a listing of one unit, for nobody
counts up pieces of a batch that the rows do not show.
"""

from dataclasses import dataclass, replace

import numpy as np

from models.estimate.effort_model import SEALED
from models.estimate.fit.effort_rows import SLOTS, Rows
from models.estimate.tempo_levels import counted
from models.values.arrays import BoolArray, FloatArray, IntArray
from models.values.categories import plain_path
from models.values.work_log import MOST_MINUTES_EACH, WorkLog

REMEMBERED_SD = 0.15  # of ln hours: rounded, breaks counted or not; common practice, no source
UNSEEN_SD = 0.15  # further, where it is not known which goods they were; common practice, no source
ENOUGH, TIMED = 0.5, 0.5  # share of an entry's items that rows must show; share of timed ones that says it all already
MOST_LIKE = 5000  # rows that stand for the usual goods; more say no more
GOODS, FURTHER = slice(2, 5), 1  # slots of state and kind of goods, and of further units
LOOK_BACK = (1, 7)  # days up to the entry's


@dataclass(frozen=True)
class Mix:
    """Rows that stand for an entry's items; none where the history is empty."""

    row: IntArray
    seen: bool  # these very items, not goods like them
    by_row: bool = True  # an item is a row; else it is a unit


@dataclass(frozen=True)
class Totals:
    """Entries as equations, arrays of shape (n_entries,)."""

    ln_minutes: FloatArray
    items: FloatArray
    mix: IntArray  # index in `mixes`
    mixes: tuple[Mix, ...]
    habit: float = 0.0  # variance of ln hours, all entries alike, against minutes told in another way

    def __len__(self) -> int:
        return len(self.items)

    def none(self) -> "Totals":
        """Not one of the entries."""
        return Totals(np.empty(0), np.empty(0), np.empty(0, dtype=np.int64), ())

    def over(self, rows: IntArray) -> "Totals":
        """The same where only these rows, sorted, are kept; every mix lies in them."""
        mixes = tuple(replace(mix, row=np.searchsorted(rows, mix.row)) for mix in self.mixes)
        return replace(self, mixes=mixes)

    def told_by(self, timed: IntArray) -> IntArray:
        """Rows that tell of minutes, sorted: those that were timed and those that stand for an entry's items."""
        return np.unique(np.concatenate([timed, *(mix.row for mix in self.mixes)])).astype(np.int64)


@dataclass(frozen=True)
class Work:
    """What the rows take under some coefficients."""

    units: FloatArray  # (n_rows,)
    minutes: FloatArray  # (n_rows,), mean minutes of the whole row
    alone: FloatArray  # (n_rows,), mean minutes of the row as a listing of one unit
    places: IntArray  # (n_rows, SLOTS), columns of each row
    values: FloatArray  # (n_rows, SLOTS), gradient of ln minutes there
    one_first: float  # mean minutes of a first unit of goods that nothing is known of


@dataclass(frozen=True)
class Expected:
    """What the entries should have taken under some coefficients, arrays of shape (n_entries,)."""

    ln_minutes: FloatArray  # ln of the mean of the sum
    gradient: FloatArray  # (n_entries, n_columns), of it in the coefficients
    variance: FloatArray  # of the ln of the sum


def totals_of(log: WorkLog, rows: Rows) -> Totals:
    """The entries that say something beside the timed rows.

    Parameters
    ----------
    log : WorkLog
        Entries; items or hours that cannot be meant are left out.
    rows : Rows
        The history's listing work.

    Returns
    -------
    Totals

    Examples
    --------
    >>> from models.estimate.fit.effort_rows import effort_rows
    >>> from models.values.sales import Sales
    >>> log = WorkLog.of([(np.datetime64("2026-03-02"), 40, 5, "", "")])
    >>> totals = totals_of(log, effort_rows(Sales.blank(3), np.arange(3)))
    >>> len(totals), totals.mixes[0].row.tolist(), totals.mixes[0].seen
    (1, [0, 1, 2], False)
    """
    usual: dict[tuple[str, str], int] = {}
    mixes: list[Mix] = []
    kept: list[tuple[int, int]] = []
    for at in np.flatnonzero(_meant(log)).tolist():
        asked = (str(log.kind[at]), plain_path(str(log.category[at])))
        own = _own_rows(log, at, rows, _like(rows, *asked))
        if own is None:
            if asked not in usual:
                usual[asked] = len(mixes)
                mixes.append(_usual(rows, *asked))
            kept.append((at, usual[asked]))
        elif _untimed(rows, own.row):
            kept.append((at, len(mixes)))
            mixes.append(own)
    used, mix = (np.array([pair[side] for pair in kept], dtype=np.int64) for side in (0, 1))
    return Totals(np.log(log.hours[used] * 60.0), log.items[used], mix, tuple(mixes))


def expected(totals: Totals, work: Work, covariance: FloatArray, noise_sd: float) -> Expected:
    """Mean of each entry's sum, its gradient and spread.

    Parameters
    ----------
    totals : Totals
        The entries.
    work : Work
        Mean minutes of every row under the coefficients.
    covariance : ndarray of shape (n_columns, n_columns)
        Of the coefficients: a sum holds what its goods really took, so what is not known of each of them lifts it.
    noise_sd : float
        Of ln minutes of one listing.

    Returns
    -------
    Expected

    Notes
    -----
    The sum of k rows of mean minutes M has mean k E[M] and variance k ((e^s2 - 1) E[M^2] + var M), the last part only
    where it is not known which rows they were; its ln is taken as normal.  A habit moves all entries alike: as errors
    of their own they tell together no more than it lets them.
    """
    means = np.empty(len(totals.mixes))
    spreads = np.empty(len(totals.mixes))
    gradients = np.zeros((len(totals.mixes), len(covariance)))
    for at, mix in enumerate(totals.mixes):
        means[at], spreads[at], gradients[at] = _of_mix(mix, work, covariance, noise_sd)
    of = totals.mix
    own = np.log1p(spreads[of] / totals.items)  # the sum's; memory errs up and down alike in ln hours
    seen = np.array([totals.mixes[mix].seen for mix in of.tolist()], dtype=bool)
    variance = own + REMEMBERED_SD**2 + np.where(seen, 0.0, UNSEEN_SD**2) + totals.habit * len(totals)
    return Expected(np.log(means[of] * totals.items) - own / 2.0, gradients[of], variance)


def _of_mix(mix: Mix, work: Work, covariance: FloatArray, noise_sd: float) -> tuple[float, float, FloatArray]:
    """Mean minutes of an item, relative variance of one item's share of the sum, gradient of ln mean."""
    gradient = np.zeros(len(covariance) + 1)
    if len(mix.row) == 0:
        gradient[0] = 1.0
        return work.one_first, float(np.expm1(noise_sd**2)), gradient[:-1]
    places, values = work.places[mix.row], work.values[mix.row]
    items = float(len(mix.row) if mix.by_row else work.units[mix.row].sum())
    taken = work.minutes if mix.seen else work.alone
    minutes = taken[mix.row] * np.exp(_apart(places[:, GOODS], covariance) / 2.0)
    whole, square = minutes.sum(), float(minutes @ minutes)
    pulls = (values if mix.seen else values * (np.arange(SLOTS) != FURTHER)) * (minutes / whole)[:, None]
    gradient = counted(places.ravel(), pulls.ravel(), len(covariance) + 1)
    spread = np.expm1(noise_sd**2) * square + (0.0 if mix.seen else square - whole**2 / len(minutes))
    return float(whole / items), float(spread * items / whole**2), gradient[:-1]


def loading_variance(places: IntArray, covariance: FloatArray) -> FloatArray:
    """Variance of the sum of some coefficients, row by row.

    Parameters
    ----------
    places : ndarray of shape (n_rows, n_slots)
        Columns that are summed; one past the last adds nothing.
    covariance : ndarray of shape (n_columns, n_columns)
        Of the coefficients.

    Returns
    -------
    ndarray of shape (n_rows,)
        [ln minutes squared]

    Examples
    --------
    >>> loading_variance(np.array([[3, 9, 10]]), 0.04 * np.eye(10)).round(2).tolist()
    [0.08]
    """
    wide = np.pad(covariance, ((0, 1), (0, 1)))
    return np.asarray(wide[places[:, :, None], places[:, None, :]].sum(axis=(1, 2)), dtype=np.float64)


def _apart(places: IntArray, covariance: FloatArray) -> FloatArray:
    """Variance of what each row's goods do beside the mean of the rows, shape (n_rows,)."""
    mean = counted(places.ravel(), np.ones(places.size), len(covariance) + 1)[:-1] / len(places)
    pull = covariance @ mean
    crossed = np.append(pull, 0.0)[places].sum(axis=1)
    return np.asarray(loading_variance(places, covariance) - 2.0 * crossed + float(mean @ pull), dtype=np.float64)


def _meant(log: WorkLog) -> BoolArray:
    usable = (log.items > 0) & (log.hours > 0)
    return np.asarray(usable & (log.hours * 60.0 <= MOST_MINUTES_EACH * log.items))


def _like(rows: Rows, kind: str, category: str) -> BoolArray:
    """Rows of the kind and category that an entry names."""
    like = np.ones(len(rows), dtype=bool)
    if kind:
        like &= (rows.condition == SEALED) == (kind == "sealed")
    if category:
        like &= (rows.top == category) | (rows.sub == category)
    return like


def _own_rows(log: WorkLog, at: int, rows: Rows, like: BoolArray) -> Mix | None:
    """Rows listed on the entry's day, or in the week up to it; None where they are not about so many."""
    ago = (log.on[at] - rows.listed).astype("timedelta64[D]").astype(np.int64)
    for by_row in (False, True):
        for days in LOOK_BACK:
            near = like & ~np.isnat(rows.listed) & (ago >= 0) & (ago < days)
            count = float(near.sum()) if by_row else rows.units[near].sum()
            if ENOUGH * log.items[at] <= count <= log.items[at] / ENOUGH:
                return Mix(np.flatnonzero(near), True, by_row)
    return None


def _untimed(rows: Rows, own: IntArray) -> bool:
    timed = np.isfinite(rows.minutes[own])
    return bool(rows.units[own][timed].sum() < TIMED * rows.units[own].sum())


def _usual(rows: Rows, kind: str, category: str) -> Mix:
    """Rows like it: of its kind and category, else of its kind, else all."""
    for asked in ((kind, category), (kind, ""), ("", "")):
        like = _like(rows, *asked)
        if like.any():
            every = np.flatnonzero(like)
            return Mix(every[:: -(-len(every) // MOST_LIKE)], False)
    return Mix(np.empty(0, dtype=np.int64), False)
