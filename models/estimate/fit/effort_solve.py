"""Which coefficients fit timings and totals best?  Gauss-Newton under Student noise, spreads of levels learned.

References
----------
Lange, Little & Taylor 1989, Journal of the American Statistical Association 84:881 (weights and information of the t);
MacKay 1992, doi:10.1162/neco.1992.4.3.415 (effective number of coefficients).
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from scipy.special import gammaln

from models.estimate.effort_model import FURTHER_SEALED, FURTHER_USED, KINDS
from models.estimate.fit.effort_rows import CONDITION_AT, SLOTS, TOP_AT, Columns, Rows
from models.estimate.fit.effort_totals import Expected, Totals, Work, expected
from models.estimate.tempo_levels import counted
from models.values.arrays import FloatArray, IntArray
from models.values.conditions import CONDITIONS
from models.values.settings import Effort

BASE_SD, FURTHER_SD, CONDITION_SD, TOP_SD, SUB_SD, BUNCH_SD = 0.7, 0.3, 0.15, 0.25, 0.2, 0.1
GRADE = 0.1  # prior rise of ln minutes a grade of condition, around the mean grade of what was timed
NOISE, NOISE_WEIGHT, DEGREES = 0.4, 20.0, 6.0
BLOCK_WEIGHT = 4.0  # prior weight of each block's own spread
ROUNDS, SETTLED = 25, 1e-4  # of ln minutes
REACH = 3.0  # residuals beyond so many scales count as that in what turns a median into a mean


@dataclass(frozen=True)
class Solved:
    """Coefficients in ln minutes, `count` of them."""

    theta: FloatArray
    covariance: FloatArray
    smear: float  # ln of mean over median of one listing
    scale: float  # of the noise
    residual: FloatArray  # of the timed rows, whitened by nothing
    sd: Mapping[str, float]  # of each block (condition, top, sub, bunch), for a level that is new


@dataclass(frozen=True)
class _State:
    theta: FloatArray
    variance: FloatArray  # prior variance of each coefficient
    noise: float
    smear: float
    row_weight: FloatArray
    total_weight: FloatArray
    covariance: FloatArray  # (count, count), of the coefficients


class Problem:
    """All that stays the same from round to round."""

    def __init__(self, rows: Rows, columns: Columns, totals: Totals) -> None:
        self.rows, self.totals, self.count = rows, totals, columns.count
        self.places = columns.places(rows)
        self.timed = np.flatnonzero(np.isfinite(rows.minutes))
        self.ln_minutes = np.log(rows.minutes[self.timed])
        subs = TOP_AT + len(columns.top)
        self.blocks = {
            "condition": (slice(CONDITION_AT, TOP_AT), CONDITION_SD),
            "top": (slice(TOP_AT, subs), TOP_SD),
            "sub": (slice(subs, columns.lasting), SUB_SD),
            "bunch": (slice(columns.lasting, columns.count), BUNCH_SD),
        }
        self.prior = self._prior()

    def _prior(self) -> FloatArray:
        """Prior means, from the default settings: a setting of 12 is a mean of 12."""
        first, sealed, used = np.log([getattr(Effort(), kind) for kind in KINDS])
        mean = np.zeros(self.count)
        mean[: len(KINDS)] = first - NOISE**2 / 2.0, sealed - first, used - first
        grade = self._mean_grade()
        if grade is not None:  # without timings a setting means what it says, whatever the condition
            mean[CONDITION_AT:TOP_AT] = GRADE * (np.arange(len(CONDITIONS)) - grade)
        return mean

    def _mean_grade(self) -> float | None:
        """Of the rows that tell of minutes."""
        told = np.zeros(len(self.rows))
        told[self.timed] = 1.0
        for at, items in zip(self.totals.mix.tolist(), self.totals.items.tolist(), strict=True):
            row = self.totals.mixes[at].row
            told[row] += items / max(len(row), 1)
        told[self.rows.condition < 0] = 0.0
        return float(told @ self.rows.condition / told.sum()) if told.sum() > 0 else None

    def work(self, theta: FloatArray, smear: float) -> Work:
        """Mean minutes of every row and their gradient."""
        return work_of(self.rows, self.places, theta, smear)

    def solve(self) -> Solved:
        """Rounds until the coefficients stand still."""
        variance = np.full(self.count, BASE_SD**2)
        variance[[FURTHER_SEALED, FURTHER_USED]] = FURTHER_SD**2
        for where, sd in self.blocks.values():
            variance[where] = sd**2
        ones = np.ones(len(self.timed)), np.ones(len(self.totals)), np.diag(variance)
        state = _State(self.prior.copy(), variance, NOISE**2, NOISE**2 / 2.0, *ones)
        for _ in range(ROUNDS):
            after = self._round(state)
            moved = float(np.max(np.abs(after.theta - state.theta)))
            state = after
            if moved < SETTLED:
                break
        return self._solved(state)

    def _round(self, state: _State) -> _State:
        work = self.work(state.theta, state.smear)
        precision, pull = self._equations(state, work, 1.0)
        covariance = np.asarray(np.linalg.inv(precision), dtype=np.float64)
        theta = state.theta + covariance @ pull
        work = self.work(theta, state.smear)
        residual, gap, told = self._residuals(work, state)
        weight = (DEGREES + 1.0) / (DEGREES + residual**2 / state.noise)
        free = max(len(residual) - _effective(np.diag(covariance), state.variance), 0.0)
        noise = float((weight @ residual**2 + NOISE_WEIGHT * NOISE**2) / (free + NOISE_WEIGHT))
        total_weight = (DEGREES + 1.0) / (DEGREES + gap**2 / told.variance)
        variance = self._variances(state.variance, theta, np.diag(covariance))
        return _State(theta, variance, noise, _smear(residual, noise, free), weight, total_weight, covariance)

    def _residuals(self, work: Work, state: _State) -> tuple[FloatArray, FloatArray, Expected]:
        """Of the timed rows and of the totals."""
        residual = self.ln_minutes - (np.log(work.minutes[self.timed]) - state.smear)
        told = expected(self.totals, work, state.covariance, noise_sd(state.smear))
        return residual, self.totals.ln_minutes - told.ln_minutes, told

    def _equations(self, state: _State, work: Work, factor: float) -> tuple[FloatArray, FloatArray]:
        """Precision matrix and pull of a Gauss-Newton step; `factor` on what the data say."""
        residual, gap, told = self._residuals(work, state)
        weight = factor * state.row_weight / state.noise
        places, values = self.places[self.timed], work.values[self.timed]
        precision = _gathered(places, values, weight, self.count)
        pull = counted(places.ravel(), (values * (weight * residual)[:, None]).ravel(), self.count + 1)[:-1]
        total_weight = factor * state.total_weight / told.variance
        precision += told.gradient.T @ (told.gradient * total_weight[:, None]) + np.diag(1.0 / state.variance)
        pull += told.gradient.T @ (total_weight * gap) - (state.theta - self.prior) / state.variance
        return precision, pull

    def _variances(self, before: FloatArray, theta: FloatArray, known: FloatArray) -> FloatArray:
        """Each block's own spread under a scaled inverse chi-square prior."""
        variance = before.copy()
        for where, sd in self.blocks.values():
            away = theta[where] - self.prior[where]
            if len(away):
                weight = _effective(known[where], before[where]) + BLOCK_WEIGHT
                variance[where] = (away @ away + BLOCK_WEIGHT * sd**2) / weight
        return variance

    def _solved(self, state: _State) -> Solved:
        work = self.work(state.theta, state.smear)
        precision, _ = self._equations(state, work, (DEGREES + 1.0) / (DEGREES + 3.0))
        residual, _, _ = self._residuals(work, state)
        covariance = np.asarray(np.linalg.inv(precision), dtype=np.float64)
        sd = {}
        for name, (where, prior) in self.blocks.items():
            variance = state.variance[where]
            weight = _effective(np.diag(covariance)[where], variance) + BLOCK_WEIGHT
            sd[name] = (float(np.sqrt(variance[0])) if len(variance) else prior) * _mean_over_root(weight)
        return Solved(state.theta, covariance, state.smear, float(np.sqrt(state.noise)), residual, sd)


def work_of(rows: Rows, places: IntArray, theta: FloatArray, smear: float) -> Work:
    """Mean minutes of rows under coefficients, and their gradient.

    Parameters
    ----------
    rows : Rows
        Listing work.
    places : ndarray of shape (n_rows, SLOTS)
        Columns of each row, one past the last where there is none.
    theta : ndarray of shape (n_columns,)
        Coefficients [ln minutes].
    smear : float
        ln of mean over median of one listing.

    Returns
    -------
    Work

    Examples
    --------
    >>> from models.estimate.fit.effort_rows import columns_of, effort_rows
    >>> from models.values.sales import Sales
    >>> rows = effort_rows(Sales.blank(1), np.array([0]))
    >>> theta = np.concatenate([[np.log(12.0)], np.zeros(8)])
    >>> work_of(rows, columns_of(rows).places(rows), theta, 0.0).minutes.round(6).tolist()
    [12.0]
    """
    shared = np.append(theta, 0.0)[places[:, [0, 2, 3, 4, 5]]].sum(axis=1)
    extra = rows.further * np.exp(theta[rows.kind])
    parts = rows.first + extra
    values = np.ones((len(rows), SLOTS))
    values[:, 1] = extra / parts
    alone = np.exp(shared + smear)
    return Work(rows.units, alone * parts, alone, places, values, float(np.exp(theta[0] + smear)))


def _gathered(places: IntArray, values: FloatArray, weight: FloatArray, count: int) -> FloatArray:
    """X' W X of rows that touch a few columns each."""
    wide = count + 1
    sums = np.zeros(wide * wide)
    for left in range(SLOTS):
        for right in range(left, SLOTS):
            product = weight * values[:, left] * values[:, right] * (1.0 if left != right else 0.5)
            sums += counted(places[:, left] * wide + places[:, right], product, wide * wide)
    half = sums.reshape(wide, wide)[:-1, :-1]
    return np.asarray(half + half.T)


def _effective(known: FloatArray, prior: FloatArray) -> float:
    """Coefficients of a block that the data determine."""
    return float(np.sum(1.0 - known / prior))


def _mean_over_root(weight: float) -> float:
    """Posterior mean of a block's sd over the root of the scale, under an inverse chi-square of so much weight."""
    return float(np.sqrt(weight / 2.0) * np.exp(gammaln((weight - 1.0) / 2.0) - gammaln(weight / 2.0)))


def noise_sd(smear: float) -> float:
    """Sd of a log-normal whose mean over median is e^smear."""
    return float(np.sqrt(2.0 * max(smear, 0.0)))


def _smear(residual: FloatArray, noise: float, free: float) -> float:
    """Duan's smearing, residuals cut at three scales and shrunk to the prior's: what turns a median into a mean.

    Residuals of fitted rows are too small by what the coefficients took; `free` rows are left of them.

    References
    ----------
    Duan 1983, Journal of the American Statistical Association 78:605.
    """
    reach = REACH * np.sqrt(noise)
    whole = residual * np.sqrt(len(residual) / max(free, 1.0))
    mean = float(np.exp(np.clip(whole, -reach, reach)).mean()) if len(residual) else 1.0
    return float(np.log((free * mean + NOISE_WEIGHT * np.exp(NOISE**2 / 2.0)) / (free + NOISE_WEIGHT)))
