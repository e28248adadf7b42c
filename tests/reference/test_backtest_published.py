"""Kaplan & Meier's estimate on the 6-MP arm of Freireich et al. 1963, Blood 21:699 (the "gehan" data of R's MASS):
remission of 21 children [weeks].  Survival as tabled in Kleinbaum & Klein, Survival Analysis, chapter 2:
.8571 .8067 .7529 .6902 .6275 .5378 .4482; median 23.
Wilson's range of 81 in 263: .2553 to .3662 (Newcombe 1998, Statistics in Medicine 17:857, method 3).
"""

import numpy as np
import pytest

from models.appraisal.backtest.score import Held, half_of, kaplan_meier

OVER = [6, 6, 6, 7, 10, 13, 16, 22, 23]
STILL = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35]


def test_kaplan_meier_of_the_6mp_arm() -> None:
    weeks = np.array(OVER + STILL, dtype=np.float64)
    ended = np.array([1.0] * len(OVER) + [0.0] * len(STILL))
    days, share = kaplan_meier(weeks, ended, np.ones(len(weeks)))
    assert days.tolist() == [6, 7, 10, 13, 16, 22, 23]
    assert (1 - share).round(4).tolist() == [0.8571, 0.8067, 0.7529, 0.6902, 0.6275, 0.5378, 0.4482]
    assert days[np.flatnonzero(share >= 0.5)[0]] == 23


def test_a_row_of_two_units_is_two_rows_of_one() -> None:
    once = kaplan_meier(np.array([3.0, 5.0, 9.0]), np.array([1.0, 0.0, 1.0]), np.array([2.0, 1.0, 2.0]))
    twice = kaplan_meier(np.array([3.0, 3, 5, 9, 9]), np.array([1.0, 1, 0, 1, 1]), np.ones(5))
    assert once[1] == pytest.approx(twice[1])


def test_wilsons_range() -> None:
    assert np.round(Held(0.3, 81, 263).by_luck, 4).tolist() == [0.2553, 0.3662]


def test_half_is_read_between_the_days_given() -> None:
    assert half_of(np.array([10.0, 20.0]), np.array([0.4, 0.6])) == pytest.approx(15.0)
    assert half_of(np.array([10.0, 20.0]), np.array([0.3, 0.49])) is None
