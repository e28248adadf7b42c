"""Which rates made these sales?  A Poisson ridge with one gamma frailty a product, fitted by EM.

ln mu = intercept + X beta, beta ~ N(0, 1 / penalty); a product with d sales where mu expected H has the marginal
likelihood Gamma(a + d)/Gamma(a) a^a prod mu^d / (a + H)^(a + d).  Its score in beta is the Poisson score with the
exposure multiplied by (a + d)/(a + H): so each round is one PoissonRegressor, then shape and intercept on the marginal.

y = events / w with sample weight w = exposure x base rate: any other pairing biases effects under uneven censoring.
The base rate is flat in age: the frailty already makes the pooled hazard fall with age, and would count it twice.
"""

from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_matrix
from scipy.special import gammaln
from sklearn.linear_model import PoissonRegressor

from models.estimate.tempo_levels import counted
from models.values.arrays import FloatArray, IntArray

LN_SHAPE, LN_SHAPE_SD = np.log(1.5), 0.5  # prior of the frailty's shape
LN_SHAPES = np.linspace(np.log(0.2), np.log(20.0), 47)
ROUNDS = 12
SETTLED = 1e-4  # change of ln mu that no seller would see


@dataclass(frozen=True)
class RidgeFit:
    """ln mu of a piece = ln_base + X beta."""

    ln_base: float
    beta: FloatArray  # (n_columns,)
    shape: float
    hazard: FloatArray  # (n_pieces,), sales that mu expects in each piece


def frailty_ridge(
    X: csr_matrix, events: FloatArray, days: FloatArray, product: IntArray, penalty: float, shape: float | None = None
) -> RidgeFit:
    """Posterior mode of the rates and the frailty's shape.

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
    penalty : float
        Prior precision of every effect, above zero.
    shape : float, optional
        Shape of the frailty, fixed; infinite: none.

    Returns
    -------
    RidgeFit

    Raises
    ------
    ValueError
        If nothing was sold.

    References
    ----------
    Nielsen, Gill, Andersen & Sorensen 1992, Scandinavian Journal of Statistics 19:25 (EM for gamma frailty).
    """
    if not events.sum() > 0:
        raise ValueError("nothing was sold: no rate can be fitted")
    base = float(events.sum() / days.sum())
    sold = counted(product, events)
    regression = PoissonRegressor(warm_start=True, tol=1e-6, max_iter=1000)
    frailty, held, now = np.ones(len(sold)), 1.5 if shape is None else shape, np.zeros(len(events))
    for _ in range(ROUNDS):
        weight = frailty[product] * days * base
        regression.set_params(alpha=penalty / weight.sum()).fit(X, events / weight, sample_weight=weight)
        before, now = now, regression.intercept_ + X @ regression.coef_
        hazard = days * base * np.exp(now)
        expected = counted(product, hazard)
        held, shift = _shape_and_shift(sold, expected, shape)
        regression.intercept_ += shift
        now, hazard, expected = now + shift, hazard * np.exp(shift), expected * np.exp(shift)
        frailty = posterior_frailty(sold, expected, held)
        if np.max(np.abs(now - before)) < SETTLED:
            break
    return RidgeFit(float(np.log(base) + regression.intercept_), regression.coef_, held, hazard)


def posterior_frailty(sold: FloatArray, expected: FloatArray, shape: float) -> FloatArray:
    """Mean frailty of each product: (a + d)/(a + H), 1 where there is none."""
    return np.ones(len(sold)) if np.isinf(shape) else (shape + sold) / (shape + expected)


def _shape_and_shift(sold: FloatArray, expected: FloatArray, fixed: float | None) -> tuple[float, float]:
    """Shape and change of the intercept at the mode of the marginal likelihood, the rest held."""
    if fixed is not None:
        return fixed, 0.0 if np.isinf(fixed) else _shift(sold, expected, fixed)
    found = [(_marginal(sold, expected, a, shift := _shift(sold, expected, a)), a, shift) for a in np.exp(LN_SHAPES)]
    _, a, shift = max(found)
    return float(a), shift


def _shift(sold: FloatArray, expected: FloatArray, a: float) -> float:
    shift = 0.0
    for _ in range(20):
        H = expected * np.exp(shift)
        pull = a * (sold - H) / (a + H)
        step = pull.sum() / (a * H * (a + sold) / (a + H) ** 2).sum()  # Newton; the curvature is never negative
        shift += float(np.clip(step, -1.0, 1.0))
        if abs(step) < 1e-9:
            break
    return shift


def _marginal(sold: FloatArray, expected: FloatArray, a: float, shift: float) -> float:
    H = expected * np.exp(shift)
    own = gammaln(a + sold) - gammaln(a) + a * np.log(a) - (a + sold) * np.log(a + H) + sold * shift
    return float(own.sum() - 0.5 * ((np.log(a) - LN_SHAPE) / LN_SHAPE_SD) ** 2)
