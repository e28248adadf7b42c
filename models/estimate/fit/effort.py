"""How long does this seller take to list?  Bayesian log-linear minutes from `listing_minutes`, the settings as priors.

A timed row may hold several units: one first and some further ones.  Its total is one equation on the sum of their
minutes, linearised around the last estimate (Gauss-Newton), with Student noise of 6 degrees of freedom.
"""

from dataclasses import dataclass

import numpy as np

from models.estimate.effort_model import FURTHER_SEALED, FURTHER_USED, KINDS, SEALED, EffortModel
from models.estimate.tempo_levels import Levels, category_keys
from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray, texts
from models.values.conditions import CONDITIONS
from models.values.sales import Sales
from models.values.settings import Effort

BASE_SD, FURTHER_SD, CONDITION_SD, CATEGORY_SD = 0.7, 0.3, 0.15, 0.3
GRADE = 0.1  # prior rise of ln minutes a grade of condition, around the mean grade of the timed rows
NOISE, NOISE_WEIGHT, DEGREES = 0.4, 20.0, 6.0
ROUNDS = 12
TOGETHER_DAYS = 7  # an item listed again within a week was listed as a further unit, later as a new listing
LEAST_SPREAD = 0.1  # no lot's minutes are known better than this
MOST_MINUTES = 1440.0  # a day's work on one unit is a mistyped cell


@dataclass(frozen=True)
class _Timings:
    row: IntArray
    total: FloatArray  # minutes of the row
    first: FloatArray  # 1 where the row began a listing
    further: FloatArray  # further units
    kind: IntArray  # of the further units: index in KINDS
    condition: IntArray
    category: TextArray


def fit_effort(sales: Sales, product: IntArray) -> EffortModel:
    """Posterior of listing minutes.

    Parameters
    ----------
    sales : Sales
        The history; rows without listing minutes teach nothing.
    product : ndarray of shape (n_rows,)
        Product of each row.

    Returns
    -------
    EffortModel
        Without timings the settings, with a spread of .7 in ln minutes.

    Notes
    -----
    A setting of 12 means 12 minutes on average: the prior of the median is ln 12 - .4^2/2, and the mean adds the mean
    of the noise back (smearing, .4^2/2 without timings).
    """
    timings = _timings(sales, product)
    levels = sorted({name for name in timings.category.tolist() if name})
    X = _features(timings, levels)
    precision = _precision(len(levels))
    prior = _prior(timings, len(levels))
    theta, smear, covariance = _posterior(timings, X, prior, precision)
    kinds = np.zeros((len(KINDS), len(prior)))
    kinds[:, 0] = 1.0
    kinds[FURTHER_SEALED, FURTHER_SEALED] = kinds[FURTHER_USED, FURTHER_USED] = 1.0
    conditions = slice(len(KINDS), len(KINDS) + len(CONDITIONS))
    rest = slice(conditions.stop, None)
    return EffortModel(
        timings=len(timings.row), unit_minutes=_mean(timings, sales), ln_minutes=kinds @ theta + smear,
        told=_told(timings), condition_effect=theta[conditions],
        category=Levels(texts(levels), theta[rest], np.zeros(len(levels))),
        base_sd=float(np.hypot(np.sqrt(_lot_variance(timings, X, covariance)), LEAST_SPREAD)),
    )  # fmt: skip


def timed_rows(sales: Sales) -> BoolArray:
    """True where a row's listing minutes can be used."""
    return np.isfinite(sales.listing_minutes) & (sales.listing_minutes > 0) & (sales.listing_minutes <= MOST_MINUTES)


def _mean(timings: _Timings, sales: Sales) -> float:
    return float(timings.total.sum() / sales.quantity[timings.row].sum()) if len(timings.row) else np.nan


def _timings(sales: Sales, product: IntArray) -> _Timings:
    row = np.flatnonzero(timed_rows(sales))
    condition = sales.condition.astype(np.int64)
    again = _listed_together(product * 8 + condition + 1, sales.listed_on)[row]
    units = sales.quantity[row].astype(float)
    first = np.where(again, 0.0, 1.0)
    kind = np.where(condition[row] == SEALED, FURTHER_SEALED, FURTHER_USED)
    top, _ = category_keys(sales.category[row])
    total = sales.listing_minutes[row] * units
    return _Timings(row, total, first, units - first, kind, condition[row], top)


def _listed_together(item: IntArray, listed: np.ndarray) -> BoolArray:
    """True for a row whose item was listed up to a week before, in an earlier row: a further unit of that listing."""
    days = listed.astype("datetime64[D]").astype(np.int64)
    order = np.lexsort((days, item))
    near = np.zeros(len(item), dtype=bool)
    same = item[order][1:] == item[order][:-1]
    dated = ~np.isnat(listed[order][1:]) & ~np.isnat(listed[order][:-1])
    near[order[1:]] = same & dated & (np.diff(days[order]) <= TOGETHER_DAYS)
    return near


def _features(timings: _Timings, levels: list[str]) -> FloatArray:
    """Columns that first and further units share: base, two kinds (filled while fitting), conditions, categories."""
    X = np.zeros((len(timings.row), len(KINDS) + len(CONDITIONS) + len(levels)))
    X[:, 0] = 1.0
    rows = np.arange(len(X))
    known = timings.condition >= 0
    X[rows[known], len(KINDS) + timings.condition[known]] = 1.0
    place = {name: len(KINDS) + len(CONDITIONS) + at for at, name in enumerate(levels)}
    for at, name in enumerate(timings.category.tolist()):
        if name:
            X[at, place[name]] = 1.0
    return X


def _precision(n_levels: int) -> FloatArray:
    sd = [BASE_SD, FURTHER_SD, FURTHER_SD] + [CONDITION_SD] * len(CONDITIONS) + [CATEGORY_SD] * n_levels
    return np.array(sd) ** -2.0


def _told(timings: _Timings) -> FloatArray:
    """Timed rows that tell of a first, a further sealed and a further used unit, shape (3,)."""
    further = [float(((timings.kind == kind) & (timings.further > 0)).sum()) for kind in (FURTHER_SEALED, FURTHER_USED)]
    return np.array([float((timings.first > 0).sum()), *further])


def _prior(timings: _Timings, n_levels: int) -> FloatArray:
    """Prior means, from the default settings."""
    first, sealed, used = np.log([getattr(Effort(), kind) for kind in KINDS])
    mean = np.zeros(len(KINDS) + len(CONDITIONS) + n_levels)
    mean[: len(KINDS)] = first - NOISE**2 / 2.0, sealed - first, used - first
    known = timings.condition[timings.condition >= 0]
    if len(known):  # without timings a setting means what it says, whatever the condition
        mean[len(KINDS) : len(KINDS) + len(CONDITIONS)] = GRADE * (np.arange(len(CONDITIONS)) - known.mean())
    return mean


def _posterior(
    timings: _Timings, X: FloatArray, prior: FloatArray, precision: FloatArray
) -> tuple[FloatArray, float, FloatArray]:
    """Mode, ln of the mean of exp(noise), and covariance."""
    theta, noise, weight, residual = prior.copy(), NOISE**2, np.ones(len(X)), np.empty(0)
    A = np.diag(precision)
    for _ in range(ROUNDS):
        rows, residual = _linearised(timings, X, theta)
        A = rows.T @ (rows * (weight / noise)[:, None]) + np.diag(precision)
        pull = rows.T @ (residual * weight / noise) - precision * (theta - prior)
        theta = theta + np.linalg.solve(A, pull)
        _, residual = _linearised(timings, X, theta)
        weight = (DEGREES + 1.0) / (DEGREES + residual**2 / noise)
        noise = float((weight @ residual**2 + NOISE_WEIGHT * NOISE**2) / (len(X) + NOISE_WEIGHT))
    return theta, _smear(residual, noise), np.asarray(np.linalg.inv(A), dtype=np.float64)


def _smear(residual: FloatArray, noise: float) -> float:
    """Duan's smearing, residuals cut at three sds and shrunk to the prior's: what turns a median into a mean.

    References
    ----------
    Duan 1983, Journal of the American Statistical Association 78:605.
    """
    reach = 3.0 * np.sqrt(noise)
    factors = np.exp(np.clip(residual, -reach, reach)).sum() + NOISE_WEIGHT * np.exp(NOISE**2 / 2.0)
    return float(np.log(factors / (len(residual) + NOISE_WEIGHT)))


def _linearised(timings: _Timings, X: FloatArray, theta: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Gradient of ln(minutes of the row) in theta, and the row's residual."""
    shared = X @ theta
    extra = theta[timings.kind]
    parts = timings.first + timings.further * np.exp(extra)
    rows = X.copy()
    rows[np.arange(len(X)), timings.kind] = timings.further * np.exp(extra) / parts
    return rows, np.log(timings.total) - shared - np.log(parts)


def _lot_variance(timings: _Timings, X: FloatArray, covariance: FloatArray) -> float:
    """Posterior variance of the mean ln minutes of goods like the timed ones; the base's own without timings."""
    typical = X.mean(axis=0) if len(X) else np.eye(len(covariance))[0]
    return float(typical @ covariance @ typical)
