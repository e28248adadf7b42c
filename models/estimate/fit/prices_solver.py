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
class Factor:
    """Precision A, read through its inverse: [apart, rest] = [D, C; C', B], LL' = B - C' D^-1 C."""

    diagonal: FloatArray  # (n_apart,) of D
    link: csr_matrix  # (n_apart, n_rest) D^-1 C
    inverse: NDArray[np.floating]  # (n_rest, n_rest) L^-1

    def solved(self, right: FloatArray) -> FloatArray:
        """A^-1 times a vector of shape (p,)."""
        apart = len(self.diagonal)
        reduced = (right[apart:] - self.link.T @ right[:apart]).astype(self.inverse.dtype)
        rest = (self.inverse.T @ (self.inverse @ reduced)).astype(np.float64)
        return np.concatenate([right[:apart] / self.diagonal - self.link @ rest, rest])

    def variance(self) -> FloatArray:
        """Diagonal of A^-1, shape (p,)."""
        rest = np.einsum("ij,ij->j", self.inverse, self.inverse).astype(np.float64)
        return np.concatenate([1 / self.diagonal + _squared(self.link, self.inverse), rest])

    def quadratic(self, rows: csr_matrix) -> FloatArray:
        """x' A^-1 x of each row x, shape (n_rows,)."""
        away, rest = _parted(rows, len(self.diagonal))
        left = (rest - away @ self.link).tocsr()
        found: FloatArray = _squared(left, self.inverse) + away.multiply(away) @ (1 / self.diagonal)
        return found

    def whole(self) -> NDArray[np.floating]:
        """F, lower triangular, with F'F = A^-1, shape (p, p)."""
        apart = len(self.diagonal)
        found = np.zeros((apart + len(self.inverse),) * 2, dtype=self.inverse.dtype)
        found[np.arange(apart), np.arange(apart)] = self.diagonal**-0.5
        found[apart:, :apart] = -(self.link.astype(self.inverse.dtype) @ self.inverse.T).T
        found[apart:, apart:] = self.inverse
        return found


def _parted(rows: csr_matrix, apart: int) -> tuple[csr_matrix, csr_matrix]:
    columns = rows.tocsc()
    return columns[:, :apart].tocsr(), columns[:, apart:].tocsr()


def _squared(rows: csr_matrix, inverse: NDArray[np.floating]) -> FloatArray:
    reached = rows.astype(inverse.dtype) @ inverse.T
    found: FloatArray = np.einsum("ij,ij->i", reached, reached).astype(np.float64)
    return found


def apart_first(rows: csr_matrix, groups: Groups) -> tuple[IntArray, int]:
    """An order of the columns, and how many of its first ones touch different products: those of fewest come first."""
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
    return np.concatenate([apart, np.setdiff1d(np.arange(rows.shape[1]), apart)]), len(apart)


def distinct(rows: csr_matrix, kind: IntArray) -> tuple[IntArray, IntArray]:
    """The first of each set of equal columns of one kind, and how many they are; columns of kind 0 stay alone."""
    columns = rows.tocsc()
    columns.sort_indices()
    equal: dict[tuple[int, int, bytes, bytes], list[int]] = {}
    for at, of in enumerate(kind.tolist()):
        entries = slice(columns.indptr[at], columns.indptr[at + 1])
        content = columns.indices[entries].tobytes(), columns.data[entries].tobytes()
        equal.setdefault((of, 0 if of else at, *content), []).append(at)
    return np.array([own[0] for own in equal.values()]), np.array([len(own) for own in equal.values()])


def factorised(rows: csr_matrix, spread: Spread, prior: FloatArray, apart: int, single: bool) -> Factor:
    """The precision X' V^-1 X + diag(prior), factorised; in double precision where single cannot tell it positive.

    The first `apart` columns must not meet each other.

    Raises
    ------
    LinAlgError
        If the matrix is not positive definite.
    """
    every, scale = spread.stacked(rows)
    away, rest = _parted(every, apart)
    weighted = rest.multiply(scale[:, None]).tocsr()
    inner = rest.T @ weighted
    diagonal, link = np.zeros(0), csr_matrix((0, rest.shape[1]))
    if apart:
        diagonal = np.asarray(away.multiply(away).T @ scale).ravel() + prior[:apart]
        meeting = (away.T @ weighted).tocsr()
        link = (diags_array(1 / diagonal) @ meeting).tocsr()
        inner = inner - meeting.T @ link
    precision = inner.toarray()
    precision[np.diag_indices_from(precision)] += prior[apart:]
    return Factor(diagonal, link, _inverse_factor(precision, single))


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
