"""Which rates made these sales?  A Poisson ridge with one gamma frailty a product.

ln mu = base + X beta, beta of block g ~ N(0, spread_g^2); a product with d sales where mu expected H has the marginal
likelihood Gamma(a + d)/Gamma(a) a^a prod mu^d / (a + H)^(a + d), which is log-concave in beta: Newton's steps.  In
turn with them the frailty's shape is set on the same likelihood, and each block's spread is learned under one prior, as
the price half learns its own.

The base rate is flat in age: the frailty already makes the pooled hazard fall with age, and would count it twice.
"""

from dataclasses import dataclass, replace

import numpy as np
from scipy.linalg import cho_factor, cho_solve
from scipy.sparse import csr_matrix, hstack

from models.estimate.fit.tempo_frailty import LN_SHAPE, likeliest_shape, posterior_frailty
from models.estimate.tempo_levels import counted
from models.values.arrays import FloatArray, IntArray

SPREAD_DF = 4.0  # worth of the prior of a block's spread, in effects
FLAT = 1e-9  # prior precision of the base: none
ROUNDS = 50
SETTLED, SPREAD_SETTLED = 1e-3, 0.02  # changes of ln mu and of ln spread that no seller would see


@dataclass(frozen=True)
class Prior:
    """What is thought of the effects before the file is read."""

    block: IntArray  # (n_columns,), 0 .. n_blocks - 1
    spread: FloatArray  # (n_blocks,), sd of an effect
    learned: bool = False  # the spreads are where learning starts
    shape: float | None = None  # of the frailty, fixed; infinite: none; None: learned

    @property
    def precision(self) -> FloatArray:
        """Of the base and every column."""
        return np.concatenate([[FLAT], self.spread[self.block] ** -2.0])


@dataclass(frozen=True)
class RidgeFit:
    """ln mu of a piece = ln_base + X beta."""

    ln_base: float
    beta: FloatArray  # (n_columns,)
    shape: float
    spread: FloatArray  # (n_blocks,)
    variance: FloatArray  # (n_columns,), of each effect, whatever the others are
    hazard: FloatArray  # (n_pieces,), sales that mu expects in each piece
    information: FloatArray  # (n_pieces,), events a piece is worth: the less the more its product told already


@dataclass
class _State:
    X: csr_matrix  # the base first
    events: FloatArray
    days: FloatArray
    product: IntArray
    sold: FloatArray  # by product
    beta: FloatArray
    shape: float

    def __post_init__(self) -> None:
        self.by_product = csr_matrix(
            (np.ones(len(self.product)), (self.product, np.arange(len(self.product)))),
            shape=(len(self.sold), len(self.product)),
        )
        self.turned = csr_matrix(self.X.T)
        self.moved(np.zeros_like(self.beta))

    def moved(self, step: FloatArray) -> None:
        """Take a step, and see what is expected of every piece and product then."""
        self.beta = self.beta + step
        self.hazard = self.days * np.exp(self.X @ self.beta)
        self.expected = self.by_product @ self.hazard

    def curvature(self, precision: FloatArray) -> tuple[FloatArray, bool]:
        """Cholesky factor of the negative second derivative; what a product's pieces share tells less."""
        frailty = posterior_frailty(self.sold, self.expected, self.shape)
        felt = _scaled(self.X, self.hazard)
        whole = (self.turned @ _scaled(felt, frailty[self.product])).toarray() + np.diag(precision)
        if np.isfinite(self.shape):
            shared = _scaled(csr_matrix(self.by_product @ felt), np.sqrt(frailty / (self.shape + self.expected)))
            whole -= (csr_matrix(shared.T) @ shared).toarray()
        lower, _ = cho_factor(whole, lower=True)
        return np.asarray(lower), True


def _scaled(rows: csr_matrix, by: FloatArray) -> csr_matrix:
    """Every row times its number."""
    data = rows.data * np.repeat(by, np.diff(rows.indptr))
    return csr_matrix((data, rows.indices, rows.indptr), shape=rows.shape)


def frailty_ridge(
    X: csr_matrix,
    events: FloatArray,
    days: FloatArray,
    product: IntArray,
    prior: Prior,
    begin: RidgeFit | None = None,
) -> RidgeFit:
    """Posterior mode of the rates, the frailty's shape and the blocks' spreads.

    Parameters
    ----------
    X : sparse array of shape (n_pieces, n_columns)
        Covariates.
    events : ndarray of shape (n_pieces,)
        Units sold.
    days : ndarray of shape (n_pieces,)
        Stock-days, above zero.
    product : ndarray of shape (n_pieces,)
        0 .. n_products - 1.
    prior : Prior
        Blocks of the columns, their spreads, and what is learned.
    begin : RidgeFit, optional
        Where to start: a fit with the same columns on a part of the pieces saves time.

    Returns
    -------
    RidgeFit

    Raises
    ------
    ValueError
        If nothing was sold.

    Notes
    -----
    spread^2 <- (sum beta^2 + df spread_0^2) / (gamma + df), gamma = effects - trace(V) / spread^2, V the inverse of the
    curvature.

    References
    ----------
    Nielsen, Gill, Andersen & Sorensen 1992, Scandinavian Journal of Statistics 19:25 (gamma frailty); MacKay 1992,
    Neural Computation 4:415 (spreads).

    Examples
    --------
    Nine sales in 359 days and nothing else known, without frailty: one rate.

    >>> prior = Prior(np.zeros(1, dtype=int), np.array([1.0]), shape=np.inf)
    >>> one = frailty_ridge(csr_matrix((1, 1)), np.array([9.0]), np.array([359.0]), np.array([0]), prior)
    >>> round(float(np.exp(one.ln_base)) * 359, 6)
    9.0
    """
    if not events.sum() > 0:
        raise ValueError("nothing was sold: no rate can be fitted")
    whole = csr_matrix(hstack([csr_matrix(np.ones((len(events), 1))), X]))
    start = np.concatenate([[np.log(events.sum() / days.sum())], np.zeros(X.shape[1])])
    shape = float(np.exp(LN_SHAPE)) if prior.shape is None else prior.shape
    if begin is not None:
        start, shape = np.concatenate([[begin.ln_base], begin.beta]), begin.shape
    state = _State(whole, events, days, product, counted(product, events), start, shape)
    now = prior
    for _ in range(ROUNDS):
        before, spread = state.beta, now.spread
        factor = _step(state, now.precision)
        if prior.shape is None:
            state.shape = likeliest_shape(state.sold, state.expected)
        if prior.learned:
            now = replace(now, spread=_learned(state.beta[1:], _variance(factor), now, prior.spread))
        same = np.all(np.abs(np.log(now.spread / spread)) < SPREAD_SETTLED)
        if same and np.max(np.abs(state.beta - before)) < SETTLED:
            break
    return RidgeFit(
        float(state.beta[0]), state.beta[1:], state.shape, now.spread, _variance(factor), state.hazard,
        state.hazard / (1.0 + state.expected / state.shape)[product],
    )  # fmt: skip


def _step(state: _State, precision: FloatArray) -> tuple[FloatArray, bool]:
    """One of Newton's steps at a given shape and given spreads; the curvature where it began."""
    felt = state.hazard * posterior_frailty(state.sold, state.expected, state.shape)[state.product]
    pull = state.turned @ (state.events - felt) - precision * state.beta
    factor = state.curvature(precision)
    state.moved(np.clip(cho_solve(factor, pull), -1.0, 1.0))
    return factor


def _variance(factor: tuple[FloatArray, bool]) -> FloatArray:
    """Posterior variance of each effect, the base left out."""
    return np.asarray(np.diag(cho_solve(factor, np.eye(len(factor[0]))))[1:])


def _learned(beta: FloatArray, variance: FloatArray, now: Prior, start: FloatArray) -> FloatArray:
    """Spread of each block: what its effects show, drawn to where it started."""
    n = len(start)
    gamma = np.bincount(now.block, minlength=n) - counted(now.block, variance, n) / now.spread**2
    shown = counted(now.block, beta**2, n)
    return np.asarray(np.sqrt((shown + SPREAD_DF * start**2) / (np.maximum(gamma, 0.0) + SPREAD_DF)))
