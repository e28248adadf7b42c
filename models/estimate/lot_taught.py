"""What do a few looked-up prices take off a lot's joint spread?  A correction of low rank: one direction a line seen.

With S = factor factor' the covariance of what was seen and c the covariance of any sum of lines with it, that sum's
variance falls by c' S^-1 c = |factor^-1 c|^2.  The learned effects and the cells themselves stay as they were.
"""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from models.estimate.lot_cells import Cells
from models.estimate.lot_totals import Total
from models.estimate.posterior import Posterior
from models.estimate.sparse_rows import SparseRows
from models.values.arrays import FloatArray, TextArray


@dataclass(frozen=True)
class Taught:
    """What was seen of k lines, in the order of their keys."""

    key: TextArray  # (k,) own stream of what each price adds by chance
    reached: NDArray[np.float32]  # (k, p) what was seen, in terms of the effects' independent standard normals
    loading: SparseRows  # (k, n_cells) and of the lot's cells
    own_var: FloatArray  # (k,) variance that each has alone
    gap_var: float  # variance that all have in common and no line has
    factor: FloatArray  # (k, k) lower triangular
    pull: FloatArray  # (n_lines, k) covariance of each line's level with what was seen, times factor^-T

    def removed(self) -> FloatArray:
        """Log variance taken off each line, shape (n_lines,)."""
        return np.asarray(np.einsum("ij,ij->i", self.pull, self.pull), dtype=np.float64)

    def along(self, weight: FloatArray) -> FloatArray:
        """How a weighted sum of lines hangs on what was seen, shape (k,): its squares add up to what is taken off."""
        return np.asarray(weight @ self.pull, dtype=np.float64)


def remaining(total: Total, posterior: Posterior, cells: Cells, taught: Taught) -> Total:
    """The lot's total with what the looked-up prices took off.

    Parameters
    ----------
    total : Total
        As before they were known, with the weights of now.

    Returns
    -------
    Total
        Each part of the log variance is now that part's covariance with the total: parts still add up.

    Examples
    --------
    >>> from models.estimate.lot_cells import Loads, gathered
    >>> from models.estimate.lot_totals import lot_total
    >>> from models.estimate.price_model import no_posterior
    >>> from models.estimate.sparse_rows import from_entries
    >>> one, none = np.ones(1), np.zeros(0)
    >>> posterior, cells = no_posterior(), gathered([Loads("item", np.arange(1), ["a"], one, one, one)], 1)
    >>> rows = from_entries(none.astype(int), none.astype(int), none, (1, 0))
    >>> taught = Taught(np.array(["a"]), np.zeros((1, 0), np.float32), cells.loading, one, 0.0,
    ...     np.array([[2**0.5]]), np.array([[0.5**0.5]]))
    >>> total = lot_total(np.array([100.0]), np.zeros(1), rows, cells, posterior)
    >>> round(total.log_var, 6), round(remaining(total, posterior, cells, taught).log_var, 6)
    (1.0, 0.5)
    """
    back = np.asarray(np.linalg.solve(taught.factor.T, taught.along(total.weight)), dtype=np.float64)
    effects = (total.direction @ posterior.columns) @ (back @ taught.reached)
    of_cell = cells.var * cells.loading.weighted_columns(total.weight) * taught.loading.weighted_columns(back)
    return replace(total, effects=total.effects - float(effects), by_cell=total.by_cell - of_cell)
