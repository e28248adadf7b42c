"""What does a fitted regression know, and how surely?  Effects theta ~ N(mean, F'F), F the inverse Cholesky factor."""

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.linalg.lapack import slauum

from models.estimate.blocks import BLOCKS, Layout
from models.estimate.sparse_rows import SparseRows, quadratic
from models.values.arrays import Arrays, FloatArray


@dataclass(frozen=True)
class Posterior:
    """Effects of one regression; unit of the outcome, a log price or a log tag."""

    layout: Layout
    mean: FloatArray  # (p,)
    packed: NDArray[np.float32]  # (p (p + 1) / 2,) rows of the lower triangular F = L^-1 with A = LL' the precision
    prior_var: FloatArray  # (n_blocks,) spread of a block's effects, squared
    unseen_var: FloatArray  # (n_blocks,) its posterior mean: what a never-seen level of the block adds
    noise_var: float  # of one row

    @cached_property
    def columns(self) -> NDArray[np.float32]:
        """F transposed, shape (p, p): row j tells how effect j hangs on independent standard normals."""
        p = self.layout.width
        factor = np.zeros((p, p), dtype=np.float32)
        factor[np.tri(p, dtype=np.bool_)] = self.packed
        return np.ascontiguousarray(factor.T)

    def reach(self, rows: SparseRows) -> NDArray[np.float32]:
        """Each row's error in terms of p independent standard normals, shape (n_rows, p).

        Its squares add up to the row's variance; single precision errs by about 1e-6 of it.
        """
        touched = np.unique(rows.column)
        dense = np.zeros((len(rows), len(touched)), dtype=np.float32)
        dense[rows.row, np.searchsorted(touched, rows.column)] = rows.value
        reached: NDArray[np.float32] = dense @ self.columns[touched]
        return reached

    def variance(self, rows: SparseRows) -> FloatArray:
        """Variance of each row's fitted value, shape (n_rows,)."""
        touched = np.unique(rows.column)
        if len(rows) <= len(touched):  # fewer rows than effects: each row's own reach costs less than all covariances
            reached = self.reach(rows)
            return np.asarray(np.einsum("ij,ij->i", reached, reached, dtype=np.float64), dtype=np.float64)
        if 3 * len(touched) ** 2 > self.layout.width**2:
            return quadratic(rows, self._covariance())
        part = self.columns[touched]
        return quadratic(replace(rows, column=np.searchsorted(touched, rows.column), width=len(touched)), part @ part.T)

    def _covariance(self) -> NDArray[np.float32]:
        """F'F, shape (p, p), at a third of the cost of a product that does not know F to be triangular."""
        lower = slauum(self.columns.T, lower=1)[0]
        above = np.tri(len(lower), dtype=np.bool_).T
        lower[above] = lower.T[above]
        return np.ascontiguousarray(lower)

    def block_unseen(self, block: str) -> float:
        """Variance that a never-seen level of a block adds."""
        return float(self.unseen_var[BLOCKS.index(block)])

    def block_prior(self, block: str) -> float:
        """The part of `block_unseen` that the mean may carry."""
        return float(self.prior_var[BLOCKS.index(block)])


def packed_factor(factor: NDArray[Any]) -> NDArray[np.float32]:
    """The lower triangle of F, row by row.

    Examples
    --------
    >>> packed_factor(np.array([[1.0, 0.0], [2.0, 3.0]])).tolist()
    [1.0, 2.0, 3.0]
    """
    return factor[np.tri(len(factor), dtype=np.bool_)].astype(np.float32)


def to_arrays(posterior: Posterior, prefix: str) -> Arrays:
    """Plain arrays under names that begin with `prefix`.

    Examples
    --------
    >>> from models.estimate.price_model import no_posterior
    >>> sorted(to_arrays(no_posterior(), "price"))[:2]
    ['price.block', 'price.mean']
    """
    return {
        f"{prefix}.name": posterior.layout.name,
        f"{prefix}.block": posterior.layout.block,
        f"{prefix}.mean": posterior.mean,
        f"{prefix}.packed": posterior.packed,
        f"{prefix}.prior_var": posterior.prior_var,
        f"{prefix}.unseen_var": posterior.unseen_var,
        f"{prefix}.noise_var": np.array(posterior.noise_var),
    }


def from_arrays(arrays: Arrays, prefix: str) -> Posterior:
    """The posterior that `to_arrays` wrote.

    Examples
    --------
    >>> from models.estimate.price_model import no_posterior
    >>> from_arrays(to_arrays(no_posterior(), "price"), "price").layout.width
    0
    """
    layout = Layout(arrays[f"{prefix}.name"], arrays[f"{prefix}.block"])
    mean, packed, prior, unseen = (arrays[f"{prefix}.{name}"] for name in ("mean", "packed", "prior_var", "unseen_var"))
    return Posterior(layout, mean, packed, prior, unseen, float(arrays[f"{prefix}.noise_var"]))
