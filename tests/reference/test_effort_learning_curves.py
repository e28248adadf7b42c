"""Listing minutes of repeats beside published learning curves.

Sources
-------
Wright 1936, Journal of the Aeronautical Sciences 3:122: the CUMULATIVE AVERAGE of n units is a n^b, b = log2(rate);
80%, first unit 100 hours: averages 100, 80, 64, 51.2, 40.96 at n = 1, 2, 4, 8, 16.
Crawford's UNIT curve: the n-th unit takes a n^b; tables of 80% and 90% as printed in textbooks, units .8, .64, .512,
.4765, .3812, .2838, .2271 and totals 1.8, 3.142, 5.346, 6.315, 10.485, 20.122, 32.651 at n = 2, 4, 8, 10, 20, 50, 100.
Kerzner, Project Management, table 18-1, a 75% UNIT curve, first unit 812 hours: unit 100 takes 120.1, unit 250 82.1.

Ours is a step, not a power: the first unit takes `minutes_first`, each further one `minutes_repeat` (sealed) or
`minutes_used_unit`.  Its cumulative average is (first + (n - 1) further) / n, which has a floor that neither curve has.
What is checked: the published tables by their formulas; that a step fitted by us to units of a published curve returns
the curve's own total at the quantity it was fitted at; where the step lies above and below the curve.
"""

import numpy as np
import pytest
from tempo_world import lines_of, sales_of

from models.estimate.effort import line_minutes
from models.estimate.fit.effort import fit_effort
from models.estimate.products import Matched
from models.values.arrays import texts
from models.values.settings import Effort

UNITS = np.array([2, 4, 8, 10, 20, 50, 100])
CRAWFORD = {
    0.8: ([0.8, 0.64, 0.512, 0.4765, 0.3812, 0.2838, 0.2271], [1.8, 3.142, 5.346, 6.315, 10.485, 20.122, 32.651]),
    0.9: ([0.9, 0.81, 0.729, 0.7047, 0.6342, 0.5518, 0.4966], [1.9, 3.556, 6.574, 7.994, 14.608, 32.142, 58.141]),
}


def unit_curve(rate: float, n: int) -> np.ndarray:
    """Time of each of n units, the first takes 1."""
    return np.arange(1, n + 1) ** np.log2(rate)


def step(first: float, further: float, units: int) -> float:
    """Our minutes of one sealed item of so many units."""
    lines = lines_of([units])
    matched = Matched(np.array([0]), texts(["a"]), np.array([False]))
    held = Effort(minutes_first=first, minutes_repeat=further)
    untaught = fit_effort(sales_of([], []), np.empty(0, dtype=np.int64))
    return float(line_minutes(lines, matched, untaught, held, lines.assorted).listing[0])


def test_wrights_cumulative_averages() -> None:
    n = np.array([1, 2, 4, 8, 16])
    assert 100 * n ** np.log2(0.8) == pytest.approx([100, 80, 64, 51.2, 40.96])


@pytest.mark.parametrize("rate", [0.8, 0.9])
def test_crawfords_units_and_totals(rate: float) -> None:
    units, totals = CRAWFORD[rate]
    curve = unit_curve(rate, 100)
    assert curve[UNITS - 1] == pytest.approx(units, abs=6e-5)
    assert np.cumsum(curve)[UNITS - 1] == pytest.approx(totals, abs=6e-4)


def test_kerzners_units() -> None:
    curve = 812 * unit_curve(0.75, 250)
    assert [curve[99], curve[249]] == pytest.approx([120.1, 82.1], abs=0.2)


def test_two_units_are_a_learning_curve_of_two() -> None:
    """At n = 2 a step of rate r is Crawford's curve of rate r, and Wright's of rate (1 + r) / 2."""
    for rate in (0.8, 0.9):
        ours = step(10.0, 10.0 * rate, 2)
        assert ours == pytest.approx(10 * CRAWFORD[rate][1][0])
        assert ours / 2 == pytest.approx(10 * 2 ** np.log2((1 + rate) / 2))


@pytest.mark.parametrize("rate", [0.8, 0.9])
def test_a_step_through_one_total_bounds_the_curve_on_both_sides(rate: float) -> None:
    """Fitted at n = 10, the step is below the curve before it and above it after: it knows no further learning."""
    totals = dict(zip(UNITS.tolist(), CRAWFORD[rate][1], strict=True))
    further = (totals[10] - 1) / 9
    for units in UNITS.tolist():
        ours = step(1.0, further, units)
        if units == 10:
            assert ours == pytest.approx(totals[10])
        else:
            assert (ours < totals[units]) == (units < 10)


def test_a_step_learned_from_rows_on_a_published_curve_returns_its_total() -> None:
    """Rows of one and of ten sealed units whose minutes lie on Crawford's 80% curve, first unit 12 minutes."""
    n = 600
    quantity = np.where(np.arange(n) % 2, 10, 1)
    total = 12.0 * np.where(quantity == 10, 6.315, 1.0)
    sales = sales_of(np.arange(n) * 20, np.full(n, np.nan), quantity=quantity, listing_minutes=total / quantity)
    learned = np.exp(fit_effort(sales, np.arange(n)).ln_minutes)
    assert learned[0] + 9 * learned[1] == pytest.approx(12 * 6.315, rel=0.03)
    assert learned[0] == pytest.approx(12.0, rel=0.03)
