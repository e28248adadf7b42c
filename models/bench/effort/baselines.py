"""What else tells minutes?  A Gamma regression on the timed rows, and their plain mean."""

from collections.abc import Callable

import numpy as np
from scipy.sparse import csr_matrix, hstack
from sklearn.linear_model import GammaRegressor
from sklearn.model_selection import GridSearchCV
from sklearn.preprocessing import OneHotEncoder

from models.estimate.effort_model import SEALED
from models.estimate.tempo_levels import category_keys
from models.values.arrays import CodeArray, FloatArray, IntArray, TextArray
from models.values.lines import Lines
from models.values.sales import Sales

PENALTIES = (0.0003, 0.001, 0.003, 0.01, 0.03, 0.1)
FOLDS, ROUNDS = 5, 1000


def gamma_regression(sales: Sales) -> Callable[[Lines], FloatArray]:
    """Log link on state, kinds of goods and ln units by sealed or not; the penalty is chosen in five folds."""
    timed = sales.take(np.isfinite(sales.listing_minutes))
    encoder = OneHotEncoder(handle_unknown="ignore").fit(_kinds(timed.condition, timed.category))
    columns = _columns(encoder, timed.condition, timed.category, timed.quantity)
    search = GridSearchCV(GammaRegressor(max_iter=ROUNDS), {"alpha": PENALTIES}, cv=FOLDS)
    search.fit(columns, timed.listing_minutes * timed.quantity)

    def predict(lines: Lines) -> FloatArray:
        one = np.ones(len(lines), dtype=np.int64)
        units = np.where(lines.assorted, one, lines.quantity)  # an assorted line is as many listings as units
        told = search.predict(_columns(encoder, lines.condition, lines.category, units))
        return np.asarray(np.where(lines.assorted, lines.quantity, 1) * told, dtype=np.float64)

    return predict


def mean_minutes(sales: Sales) -> Callable[[Lines], FloatArray]:
    """Mean minutes of a unit."""
    timed = sales.take(np.isfinite(sales.listing_minutes))
    mean = float(timed.listing_minutes @ timed.quantity / timed.quantity.sum())
    return lambda lines: np.asarray(mean * lines.quantity, dtype=np.float64)


def _kinds(condition: CodeArray, category: TextArray) -> list[list[str]]:
    top, sub = category_keys(category)
    return [list(row) for row in zip(map(str, condition.tolist()), top, sub, strict=True)]


def _columns(encoder: OneHotEncoder, condition: CodeArray, category: TextArray, units: IntArray) -> csr_matrix:
    ln_units = np.log(units)
    sealed = condition == SEALED
    further = csr_matrix(np.stack([ln_units * sealed, ln_units * ~sealed], axis=1))
    return csr_matrix(hstack([encoder.transform(_kinds(condition, category)), further]))
