"""A plain sparse TF-IDF ridge: one penalty for all columns, chosen by five-fold cross-validation."""

import numpy as np
from scipy.sparse import csr_matrix
from sklearn.linear_model import Ridge
from sklearn.model_selection import KFold

from models.bench.baselines.forecast import Baseline, smearing_factor
from models.bench.baselines.inputs import Columns, Inputs
from models.values.arrays import FloatArray

PENALTIES = (0.3, 1.0, 3.0, 10.0)
FOLDS = 5
_MOST_ROWS = 3000  # a penalty is chosen on at most so many rows: more move it no further


def ridge(inputs: Inputs, outcome: FloatArray) -> Baseline:
    """Fit at the best penalty; the smearing factor is that of rows left out."""
    columns = Columns(inputs)
    x = columns.of(inputs)
    chosen, residual = _chosen(x[:_MOST_ROWS], outcome[:_MOST_ROWS])
    model = plain_ridge(x, outcome, chosen)

    def predict(asked: Inputs) -> FloatArray:
        return np.asarray(model.predict(columns.of(asked)), dtype=np.float64)

    return Baseline(predict, smearing_factor(residual))


def plain_ridge(x: csr_matrix, outcome: FloatArray, penalty: float) -> Ridge:
    """One fit with an intercept."""
    return Ridge(alpha=penalty, solver="sparse_cg", tol=1e-5).fit(x, outcome)


def _chosen(x: csr_matrix, outcome: FloatArray) -> tuple[float, FloatArray]:
    folds = list(KFold(min(FOLDS, len(outcome)), shuffle=True, random_state=0).split(outcome))
    best: tuple[float, float, FloatArray] | None = None
    for penalty in PENALTIES:
        residual = np.empty(len(outcome))
        for teach, test in folds:
            residual[test] = outcome[test] - plain_ridge(x[teach], outcome[teach], penalty).predict(x[test])
        loss = float(np.mean(residual**2))
        if best is None or loss < best[0]:
            best = (loss, penalty, residual)
    assert best is not None  # noqa: S101
    return best[1], best[2]
