"""Buehlmann's credibility on C. A. Hachemeister's claims of five states over twelve quarters, 1975.

Figures (collective mean 1671.017, between states 72310.02, within 46040.47, credibility .949614) as printed in the R
package actuar; the 60 values below are its data set `hachemeister`, without the weights, and give all four.
"""

import numpy as np
import pytest

from models.estimate.fit.shrunk import between_variance, shrunk
from models.estimate.fit.tempo_frailty import posterior_frailty

CLAIMS = np.array([
    (1738, 1642, 1794, 2051, 2079, 2234, 2032, 2035, 2115, 2262, 2267, 2517),
    (1364, 1408, 1597, 1444, 1342, 1675, 1470, 1448, 1464, 1831, 1612, 1471),
    (1759, 1685, 1479, 1763, 1674, 2103, 1502, 1622, 1828, 2155, 2233, 2059),
    (1223, 1146, 1010, 1257, 1426, 1532, 1953, 1123, 1343, 1243, 1762, 1306),
    (1456, 1499, 1609, 1741, 1482, 1572, 1606, 1735, 1607, 1573, 1613, 1690),
], float)  # fmt: skip
"""A state's mean claim in each quarter."""


def test_structure_and_credibility_are_as_published() -> None:
    state = CLAIMS.mean(axis=1)
    within = CLAIMS.var(axis=1, ddof=1).mean()
    between = between_variance(state, np.full(5, within / 12))
    assert state.mean() == pytest.approx(1671.017, abs=5e-4)
    assert within == pytest.approx(46040.47, abs=5e-3)
    assert between == pytest.approx(72310.02, abs=5e-3)
    drawn = shrunk(state, np.full(5, within / 12), float(state.mean()))
    assert (drawn - state.mean()) / (state - state.mean()) == pytest.approx(np.full(5, 0.949614), abs=5e-7)


def test_a_product_s_pace_is_drawn_to_its_kind_by_the_same_rule() -> None:
    """Poisson counts with a gamma mean: within variance 1 a sale expected, between 1/a, so Z = H / (H + a)."""
    sold, expected, a = np.array([0.0, 3.0, 40.0]), np.array([2.0, 1.0, 25.0]), 1.5
    within, between = 1.0 / expected, 1.0 / a
    credibility = between / (between + within)
    assert posterior_frailty(sold, expected, a) == pytest.approx(1 + credibility * (sold / expected - 1))
