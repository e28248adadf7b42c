"""How long does this seller take to list?  Bayesian log-linear minutes, the settings as priors.

Learned from two things: `listing_minutes` of rows, each one equation on ln minutes (a row may hold several units, one
first and some further ones), and totals of the work log, each one equation on a sum.  Both have Student noise of 6
degrees of freedom; beside timed rows a log has a habit of its own (`effort_beside`).  Dates alone tell how much is
listed (`pace`), not how long it takes.
"""

from dataclasses import replace

import numpy as np

from models.estimate.effort_model import FURTHER_SEALED, FURTHER_USED, EffortModel
from models.estimate.fit.effort_beside import beside_rows
from models.estimate.fit.effort_rows import CONDITION_AT, TOP_AT, Columns, Rows, columns_of, effort_rows
from models.estimate.fit.effort_solve import Problem, Solved, work_of
from models.estimate.fit.effort_totals import Totals, Work, loading_variance, totals_of
from models.estimate.tempo_levels import Levels, counted
from models.values.arrays import FloatArray, IntArray
from models.values.sales import Sales
from models.values.work_log import WorkLog

LEAST_TIMINGS, LEAST_ITEMS = 5, 20  # timed rows, or items in the work log; fewer are a look at the clock, not a habit


def fit_effort(sales: Sales, product: IntArray, log: WorkLog | None = None) -> EffortModel:
    """Posterior of listing minutes.

    Parameters
    ----------
    sales : Sales
        The history; rows without listing minutes still tell which goods are listed.
    product : ndarray of shape (n_rows,)
        Product of each row.
    log : WorkLog or None
        Totals: so many items in so many hours.  Fewer than 5 timed rows and 20 items are left unread.

    Returns
    -------
    EffortModel
        Without timings and totals the settings, with a spread of .7 in ln minutes.

    Notes
    -----
    A setting of 12 means 12 minutes on average: the prior of the median is ln 12 - .4^2/2, and the mean adds the mean
    of the noise back (smearing, .4^2/2 without timings).

    Examples
    --------
    >>> model = fit_effort(Sales.blank(0), np.empty(0, dtype=np.int64))
    >>> np.exp(model.ln_minutes).round(3).tolist(), round(model.usual_sd, 3)
    ([12.0, 1.0, 6.0], 0.7)
    >>> log = WorkLog.of([(np.datetime64("2026-03-02"), 40, 5, "", "")] * 8)
    >>> told = fit_effort(Sales.blank(0), np.empty(0, dtype=np.int64), log)
    >>> told.entries, bool(7.0 < np.exp(told.ln_minutes[0]) < 8.5)
    (8, True)
    """
    rows = effort_rows(sales, product)
    totals = totals_of(WorkLog.of([]) if log is None else log, rows)
    if np.isfinite(rows.minutes).sum() < LEAST_TIMINGS and totals.items.sum() < LEAST_ITEMS:
        rows, totals = rows.untimed(), totals_of(WorkLog.of([]), rows)
    columns = columns_of(rows)
    if len(totals) == 0 or np.isfinite(rows.minutes).sum() < LEAST_TIMINGS:
        return _model(columns, totals, *_fitted(rows, columns, totals))
    alone, work = _fitted(rows, columns, totals.none())
    beside = beside_rows(totals, work, alone)
    model = _model(columns, beside.totals, *_fitted(rows, columns, beside.totals))
    share = 1.0 - (model.usual_sd / _usual_sd(alone, _lifted(work, alone))) ** 2
    left = len(totals) - len(beside.totals)
    return replace(model, log_left=left, log_times=beside.times, log_share=float(np.clip(share, 0.0, 1.0)))


def _fitted(rows: Rows, columns: Columns, totals: Totals) -> tuple[Solved, Work]:
    told = totals.told_by(np.flatnonzero(np.isfinite(rows.minutes)))
    solved = Problem(rows.take(told), columns, totals.over(told)).solve()
    return solved, work_of(rows, columns.places(rows), solved.theta, solved.smear)


def _lifted(work: Work, solved: Solved) -> Work:
    """What is not known of goods lifts their mean."""
    doubt = loading_variance(work.places[:, [0, 2, 3, 4]], solved.covariance)
    return replace(work, minutes=work.minutes * np.exp(doubt / 2.0))


def _model(columns: Columns, totals: Totals, solved: Solved, work: Work) -> EffortModel:
    work = _lifted(work, solved)
    theta, told = solved.theta, len(solved.residual) + len(totals) > 0
    usual = _usual(work, columns)
    root = np.asarray(np.linalg.cholesky(solved.covariance[: columns.lasting, : columns.lasting]), dtype=np.float64)
    goods = float(usual @ theta[: columns.lasting])
    ln_kinds = theta[0] + np.array([0.0, theta[FURTHER_SEALED], theta[FURTHER_USED]]) + solved.smear + goods
    if told:  # the mean of what may be so; a default is a mean already
        ln_kinds += float((np.append(1.0, usual[1:]) @ root) @ (np.append(1.0, usual[1:]) @ root)) / 2.0
    top, sub = _levels(columns)
    known = np.diag(solved.covariance)
    return EffortModel(
        timings=len(solved.residual),
        entries=len(totals),
        items=float(totals.items.sum()),
        unit_minutes=float(work.minutes.sum() / work.units.sum()) if told and len(work.units) else
        float(np.exp(ln_kinds[0])) if told else np.nan,
        ln_minutes=ln_kinds,
        condition_effect=theta[CONDITION_AT:TOP_AT],
        usual_effect=goods,
        top=Levels(columns.top, theta[top], 1.0 / known[top]),
        sub=Levels(columns.sub, theta[sub], 1.0 / known[sub]),
        root=root,
        top_sd=solved.sd["top"],
        sub_sd=solved.sd["sub"],
        usual=usual,
        usual_sd=_usual_sd(solved, work),
        noise_sd=float(np.sqrt(2.0 * max(solved.smear, 0.0))),
        lot_sd=solved.sd["bunch"],
    )  # fmt: skip


def _usual(work: Work, columns: Columns) -> FloatArray:
    """Mean goods columns of the rows; a condition that is not known counts as the usual mix."""
    places, n = work.places[:, [2, 3, 4]], max(len(work.units), 1)
    mean = counted(places.ravel(), np.ones(places.size), columns.count + 1)[: columns.lasting] / n
    conditions = mean[CONDITION_AT:TOP_AT]
    mean[CONDITION_AT:TOP_AT] = conditions / max(conditions.sum(), 1.0 / n)
    return mean


def _usual_sd(solved: Solved, work: Work) -> float:
    """Of ln of the mean minutes of the history's rows."""
    if len(work.units) == 0:
        return float(np.sqrt(solved.covariance[0, 0]))
    pulls = work.values * (work.minutes / work.minutes.sum())[:, None]
    gradient = counted(work.places.ravel(), pulls.ravel(), len(solved.theta) + 1)[:-1]
    return float(np.sqrt(gradient @ solved.covariance @ gradient))


def _levels(columns: Columns) -> tuple[slice, slice]:
    start = TOP_AT + len(columns.top)
    return slice(TOP_AT, start), slice(start, columns.lasting)
