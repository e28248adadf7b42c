"""The price regression's solver without any prior: ordinary least squares with an intercept."""

import numpy as np
from scipy.sparse import csr_matrix

from models.estimate.blocks import BLOCKS
from models.estimate.fit.prices_items import Groups
from models.estimate.fit.prices_ridge import Problem, solve, start


def flat_solution(x, y):
    """Intercept and slopes; columns are standardised first, as wide ranges need."""
    n, centre, scale = len(y), x.mean(axis=0), x.std(axis=0)
    rows = np.column_stack([np.ones(n), (x - centre) / scale])
    problem = Problem(
        rows=csr_matrix(rows), outcome=y, groups=Groups(np.arange(n), np.arange(n), np.zeros(n)),
        block=np.zeros(rows.shape[1], dtype=np.int64), fixed=np.zeros(rows.shape[1]), scale=np.ones(len(BLOCKS)),
        noise_sd=float(y.std()), item_sd=0.0, row_factor=np.ones(n), degrees=0.0,
    )  # fmt: skip
    slopes = solve(problem, start(problem)).mean
    return np.concatenate([[slopes[0] - (slopes[1:] * centre / scale).sum()], slopes[1:] / scale])
