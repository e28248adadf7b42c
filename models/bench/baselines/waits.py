"""Other ways to say how soon goods sell: Kaplan-Meier by category, logistic hazards, and averages of what sold."""

from collections.abc import Callable
from dataclasses import dataclass, fields

import numpy as np
from scipy.sparse import csr_matrix, hstack
from sklearn.linear_model import LogisticRegression

from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray

EDGES = np.array([0.0, 7, 14, 30, 45, 60, 90, 120, 180, 270, 365, 730])  # days on sale, of the person-periods
PENALTIES = (0.03, 0.1, 0.3, 1.0)  # C of the logistic regression, chosen by cross-validation
FOLDS = 5
FEWEST = 5  # listings of a category, for a curve of its own
Chance = Callable[["Waits", float], FloatArray]  # that each one sells within so many days


@dataclass(frozen=True)
class Waits:
    """Listings, or lines asked about (then without `days` and `sold`); arrays of shape (n,)."""

    category: TextArray
    brand: TextArray
    condition: IntArray
    price_level: FloatArray  # ln(price / median of its category)
    month: IntArray  # of listing, 0 January; -1 where months are not told apart
    days: FloatArray  # on sale so far
    sold: BoolArray

    def __len__(self) -> int:
        return len(self.category)

    def take(self, index: IntArray) -> "Waits":
        """The rows at `index`, in its order."""
        return Waits(**{one.name: getattr(self, one.name)[index] for one in fields(self)})


def kaplan_meier(seen: Waits) -> Chance:
    """Share sold by each day, unsold listings counted as long as they were on sale (Kaplan & Meier 1958)."""

    def sold_by(days: FloatArray, sold: BoolArray, limit: float) -> float:
        times = np.unique(days[sold & (days <= limit)])
        at_risk = (days[:, None] >= times).sum(axis=0)
        gone = ((days[:, None] == times) & sold[:, None]).sum(axis=0)
        return 1.0 - float(np.prod(1 - gone / at_risk))

    return _by_category(seen, sold_by)


def sold_only(seen: Waits) -> Chance:
    """Share of the sold listings that had sold by then: what did not sell is not looked at."""

    def sold_by(days: FloatArray, sold: BoolArray, limit: float) -> float:
        return float(np.mean(days[sold] <= limit)) if sold.any() else 0.5

    return _by_category(seen, sold_by)


def _by_category(seen: Waits, sold_by: Callable[[FloatArray, BoolArray, float], float]) -> Chance:
    rows = {name: np.flatnonzero(seen.category == name) for name in set(seen.category.tolist())}
    everything = np.arange(len(seen))

    def chance(asked: Waits, limit: float) -> FloatArray:
        names = set(asked.category.tolist())
        of = {name: rows.get(name, everything) for name in names}
        of = {name: own if len(own) >= FEWEST else everything for name, own in of.items()}
        found = {name: sold_by(seen.days[own], seen.sold[own], limit) for name, own in of.items()}
        return np.array([found[name] for name in asked.category.tolist()])

    return chance


def logistic_hazards(seen: Waits) -> Chance:
    """Chance of a sale in each period on sale, by one ridge logistic regression over listings and periods."""
    columns = _Columns(seen)
    last = np.searchsorted(EDGES, seen.days, side="left").clip(1, len(EDGES) - 1)
    listing = np.repeat(np.arange(len(seen)), last)
    period = np.arange(len(listing)) - np.repeat(np.cumsum(last) - last, last)
    ends_here = period == last[listing] - 1
    sold = ends_here & seen.sold[listing]
    whole = sold | ~ends_here | (seen.days[listing] >= EDGES[period + 1])  # a period cut short tells half
    weight = np.where(whole, 1.0, 0.5)
    rows = hstack([columns.of(seen)[listing], columns.periods(period)]).tocsr()
    fold = np.arange(len(seen))[listing] % FOLDS
    best = min(PENALTIES, key=lambda c: _left_out_loss(rows, sold, weight, fold, c))
    model = LogisticRegression(C=best, max_iter=300).fit(rows, sold, sample_weight=weight)

    def chance(asked: Waits, limit: float) -> FloatArray:
        kept = np.ones(len(asked))
        plain = columns.of(asked)
        for k in range(int(np.searchsorted(EDGES, limit, side="left"))):
            here = hstack([plain, columns.periods(np.full(len(asked), k))]).tocsr()
            part = min(1.0, (limit - EDGES[k]) / (EDGES[k + 1] - EDGES[k]))
            kept *= (1 - model.predict_proba(here)[:, 1]) ** part
        return 1.0 - kept

    return chance


def _left_out_loss(rows: csr_matrix, sold: BoolArray, weight: FloatArray, fold: IntArray, c: float) -> float:
    loss = 0.0
    for one in range(FOLDS):
        kept = fold != one
        if sold[kept].all() or not sold[kept].any():
            continue
        model = LogisticRegression(C=c, max_iter=300).fit(rows[kept], sold[kept], sample_weight=weight[kept])
        chance = model.predict_proba(rows[~kept])[:, 1]
        loss -= float(weight[~kept] @ np.log(np.where(sold[~kept], chance, 1 - chance)))
    return loss


class _Columns:
    def __init__(self, seen: Waits) -> None:
        self._levels = [np.unique(one.astype(str)) for one in self._coded(seen)]

    @staticmethod
    def _coded(waits: Waits) -> list[TextArray]:
        return [waits.category, waits.brand, waits.condition.astype(str), waits.month.astype(str)]

    def of(self, waits: Waits) -> csr_matrix:
        parts = [
            csr_matrix((values.astype(str)[:, None] == levels).astype(float))
            for values, levels in zip(self._coded(waits), self._levels, strict=True)
        ]
        return csr_matrix(hstack([*parts, csr_matrix(waits.price_level[:, None])]))

    @staticmethod
    def periods(period: IntArray) -> csr_matrix:
        n = len(period)
        return csr_matrix((np.ones(n), (np.arange(n), period)), shape=(n, len(EDGES) - 1))
