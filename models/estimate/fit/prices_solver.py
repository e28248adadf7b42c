"""How is one large linear system solved cheaply again and again?  Effects that never meet are eliminated first.

Columns that touch different products do not meet in the precision matrix: their part of it is diagonal, whatever the
variances in force.  What is left after them is factorised densely; everything read from it stays exact.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import LinAlgError
from scipy.linalg.lapack import dpotrf, dtrtri, spotrf, strtri
from scipy.sparse import csr_matrix, diags_array

from models.estimate.fit.prices_items import Groups, Spread
from models.values.arrays import FloatArray, IntArray

_MOST_PRODUCTS = 12  # a column that touches more would only fill the rest


@dataclass(frozen=True)
class Split:
    """Columns apart, which never meet each other, and the rest."""

    apart: IntArray  # (n_apart,)
    rest: IntArray  # (n_rest,)


@dataclass(frozen=True)
class Factor:
    """Precision A, read through its inverse: [apart, rest] = [D, C; C', B], LL' = B - C' D^-1 C."""

    split: Split
    diagonal: FloatArray  # (n_apart,) of D
    link: csr_matrix  # (n_apart, n_rest) D^-1 C
    inverse: NDArray[np.floating]  # (n_rest, n_rest) L^-1

    def solved(self, right: FloatArray) -> FloatArray:
        """A^-1 times a vector of shape (p,)."""
        apart, rest = self.split.apart, self.split.rest
        found = np.empty(len(right))
        reduced = (right[rest] - self.link.T @ right[apart]).astype(self.inverse.dtype)
        found[rest] = self.inverse.T @ (self.inverse @ reduced)
        found[apart] = right[apart] / self.diagonal - self.link @ found[rest]
        return found

    def variance(self) -> FloatArray:
        """Diagonal of A^-1, shape (p,)."""
        apart, rest = self.split.apart, self.split.rest
        found = np.empty(len(apart) + len(rest))
        found[rest] = np.einsum("ij,ij->j", self.inverse, self.inverse)
        found[apart] = 1 / self.diagonal + _squared(self.link, self.inverse)
        return found

    def quadratic(self, rows: csr_matrix) -> FloatArray:
        """x' A^-1 x of each row x, shape (n_rows,)."""
        columns = rows.tocsc()
        away = columns[:, self.split.apart].tocsr()
        left = (columns[:, self.split.rest].tocsr() - away @ self.link).tocsr()
        found: FloatArray = _squared(left, self.inverse) + away.multiply(away) @ (1 / self.diagonal)
        return found


def _squared(rows: csr_matrix, inverse: NDArray[np.floating]) -> FloatArray:
    reached = rows.astype(inverse.dtype) @ inverse.T
    found: FloatArray = np.einsum("ij,ij->i", reached, reached).astype(np.float64)
    return found


def whole(width: int) -> Split:
    """Nothing apart: L^-1 of all effects, as a posterior keeps it."""
    return Split(np.zeros(0, dtype=np.int64), np.arange(width))


def split(rows: csr_matrix, groups: Groups) -> Split:
    """Choose columns that touch different products, those that touch fewest first."""
    n_products = len(groups.extra_var)
    product = groups.product[groups.item]
    pattern = csr_matrix((np.ones(rows.nnz), rows.indices, rows.indptr), shape=rows.shape)
    row = np.arange(len(product))
    met = (csr_matrix((np.ones(len(row)), (product, row)), shape=(n_products, len(row))) @ pattern).tocsc()
    size = np.diff(met.indptr)
    free = np.ones(n_products, dtype=np.bool_)
    chosen = []
    for column in np.argsort(size, kind="stable")[: int(np.sum(size <= _MOST_PRODUCTS))].tolist():
        touched = met.indices[met.indptr[column] : met.indptr[column + 1]]
        if free[touched].all():
            free[touched] = False
            chosen.append(column)
    apart = np.array(chosen, dtype=np.int64)
    return Split(apart, np.setdiff1d(np.arange(rows.shape[1]), apart))


def factorised(rows: csr_matrix, spread: Spread, prior: FloatArray, how: Split, single: bool) -> Factor:
    """The precision X' V^-1 X + diag(prior), factorised; in double precision where single cannot tell it positive.

    Raises
    ------
    LinAlgError
        If the matrix is not positive definite.
    """
    every, scale = spread.stacked(rows)
    columns = every.tocsc()
    rest = columns[:, how.rest].tocsr()
    weighted = rest.multiply(scale[:, None]).tocsr()
    inner = rest.T @ weighted
    diagonal, link = np.zeros(0), csr_matrix((0, len(how.rest)))
    if len(how.apart):
        away = columns[:, how.apart]
        diagonal = np.asarray(away.multiply(away).T @ scale).ravel() + prior[how.apart]
        meeting = (away.T @ weighted).tocsr()
        link = (diags_array(1 / diagonal) @ meeting).tocsr()
        inner = inner - meeting.T @ link
    precision = inner.toarray()
    precision[np.diag_indices_from(precision)] += prior[how.rest]
    return Factor(how, diagonal, link, _inverse_factor(precision, single))


def _inverse_factor(precision: FloatArray, single: bool) -> NDArray[np.floating]:
    """L^-1, lower triangular, with LL' the matrix."""
    if single:
        lower, failed = spotrf(precision.T.astype(np.float32), lower=1, clean=1, overwrite_a=1)
        if not failed:
            return np.asarray(strtri(lower, lower=1, overwrite_c=1)[0])
    lower, failed = dpotrf(precision.T, lower=1, clean=1, overwrite_a=1)
    if failed:
        raise LinAlgError(f"the leading minor of order {failed} is not positive definite")
    return np.asarray(dtrtri(lower, lower=1, overwrite_c=1)[0])
