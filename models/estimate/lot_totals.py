"""What does a whole lot fetch?  The total of correlated log-normal lines is close to log-normal: mean and log variance.

With w = q exp(mu + v / 2 + s / 2), a = w / sum w and g = (X - BX)'a, the total has mean E = sum w and log variance
s^2 = g' Sigma g + sum var (Z'a)^2 + sum a^2 cv^2, cv^2 = (exp(s) - 1) / q; its quantile is E exp(-s^2 / 2 + s z).
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from models.estimate.lot_cells import JUDGED_KINDS, Cells
from models.estimate.posterior import Posterior
from models.estimate.sparse_rows import SparseRows
from models.values.arrays import FloatArray, IntArray

Z90 = 1.2815515655446004  # standard normal quantile of .90
# What a seller calls the source of each part of the spread.
_SAYS: Mapping[str, str] = MappingProxyType({
    "effects": "what your sales could not settle", "noise": "chance of each single sale",
    "condition": "states never sold here", "untold": "states that nobody told",
    "top": "kinds never sold here", "sub": "kinds never sold here",
    "brand": "brands never sold here", "brand and sub": "brands never sold here in this kind",
    "drift": "the market until it sells", "drift by top": "the market until it sells",
    "lot": "this lot against its description",
    "product": "single products", "item": "single products", "tag": "tags of goods never sold here",
    "tags of the lot": "tags of the whole lot", "declared": "no history to learn from",
})  # fmt: skip


@dataclass(frozen=True)
class Range:
    """Mean and quantiles [minor units]; arrays of one shape, () for a total."""

    mean: FloatArray
    p10: FloatArray
    p50: FloatArray
    p90: FloatArray


@dataclass(frozen=True)
class Total:
    """A lot's gross total in closed form."""

    mean: float  # [minor units]
    weight: FloatArray  # (n_lines,) each line's share of the mean
    direction: FloatArray  # (p,) how the total hangs on the learned effects
    by_cell: FloatArray  # (n_cells,) log variance of each cell's part
    effects: float  # log variance of the learned effects' part
    noise: float  # log variance of the single sales' part

    @property
    def log_var(self) -> float:
        """Log variance of the total."""
        return self.effects + float(self.by_cell.sum()) + self.noise


def log_normal_range(mean: FloatArray, log_var: FloatArray) -> Range:
    """Mean and quantiles of a log-normal amount.

    Examples
    --------
    >>> found = log_normal_range(np.array(100.0), np.array(0.04))
    >>> [round(float(value), 1) for value in (found.p10, found.p50, found.p90)]
    [75.9, 98.0, 126.7]
    """
    sd, middle = np.sqrt(log_var), mean * np.exp(-log_var / 2)
    return Range(mean, middle * np.exp(-Z90 * sd), middle, middle * np.exp(Z90 * sd))


def lot_total(
    line_mean: FloatArray, noise_cv2: FloatArray, rows: SparseRows, cells: Cells, posterior: Posterior
) -> Total:
    """Closed form of the sum of all lines.

    Parameters
    ----------
    line_mean : ndarray of shape (n_lines,)
        Expected gross of each whole line [minor units].
    noise_cv2 : ndarray of shape (n_lines,)
        Squared coefficient of variation of a line's own noise, its quantity counted.

    Examples
    --------
    >>> from models.estimate.lot_cells import gathered, lot_load
    >>> from models.estimate.price_model import no_posterior
    >>> from models.estimate.sparse_rows import from_entries
    >>> posterior, cells = no_posterior(), gathered([lot_load(2, 0.04)], 2)
    >>> none = np.zeros(0)
    >>> rows = from_entries(none.astype(int), none.astype(int), none, (2, 0))
    >>> total = lot_total(np.array([300.0, 100.0]), np.zeros(2), rows, cells, posterior)
    >>> total.mean, round(total.log_var, 4)
    (400.0, 0.04)
    """
    mean = float(line_mean.sum())
    weight = line_mean / mean if mean > 0 else np.zeros(len(line_mean))
    direction = rows.weighted_columns(weight)
    reached = direction @ posterior.columns
    by_cell = cells.var * cells.loading.weighted_columns(weight) ** 2
    return Total(mean, weight, direction, by_cell, float(reached @ reached), float(weight**2 @ noise_cv2))


def lot_spread(total: Total, cells: Cells) -> tuple[tuple[str, float], ...]:
    """Where a lot's spread comes from: shares of its log variance, largest first.

    Examples
    --------
    >>> from models.estimate.lot_cells import gathered, lot_load
    >>> from models.estimate.price_model import no_posterior
    >>> from models.estimate.sparse_rows import from_entries
    >>> posterior, cells = no_posterior(), gathered([lot_load(2, 0.04)], 2)
    >>> none = np.zeros(0)
    >>> rows = from_entries(none.astype(int), none.astype(int), none, (2, 0))
    >>> total = lot_total(np.array([300.0, 100.0]), np.zeros(2), rows, cells, posterior)
    >>> lot_spread(total, cells)
    (('this lot against its description', 1.0),)
    """
    parts = {_SAYS["effects"]: total.effects, _SAYS["noise"]: total.noise}
    for kind, var in zip(cells.kind.tolist(), total.by_cell.tolist(), strict=True):
        parts[_SAYS[kind]] = parts.get(_SAYS[kind], 0.0) + var
    whole = max(sum(part for part in parts.values() if part > 0), 1e-300)  # prices seen can set parts against another
    shares = [(name, part / whole) for name, part in parts.items() if part > 1e-6 * whole]
    return tuple(sorted(shares, key=lambda share: (-share[1], share[0])))


def judgement_var(total: Total, cells: Cells) -> float:
    """The part of the log variance that another shop may judge otherwise: not noise, lot shock or drift ahead.

    Examples
    --------
    >>> from models.estimate.lot_cells import gathered, lot_load
    >>> from models.estimate.price_model import no_posterior
    >>> from models.estimate.sparse_rows import from_entries
    >>> posterior, cells = no_posterior(), gathered([lot_load(2, 0.04)], 2)
    >>> none = np.zeros(0)
    >>> rows = from_entries(none.astype(int), none.astype(int), none, (2, 0))
    >>> total = lot_total(np.array([300.0, 100.0]), np.zeros(2), rows, cells, posterior)
    >>> judgement_var(total, cells)
    0.0
    """
    judged = np.isin(cells.kind.astype(str), JUDGED_KINDS)
    return max(0.0, total.effects + float(total.by_cell[judged].sum()))


def noise_cv2(noise_var: FloatArray, quantity: IntArray) -> FloatArray:
    """Squared coefficient of variation of the mean of so many log-normal units.

    Examples
    --------
    >>> noise_cv2(np.array([0.04, 0.04]), np.array([1, 4])).round(4).tolist()
    [0.0408, 0.0102]
    """
    return np.asarray(np.expm1(noise_var) / quantity, dtype=np.float64)
