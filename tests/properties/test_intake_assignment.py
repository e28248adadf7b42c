"""The best one-to-one pairing, against scipy.optimize.linear_sum_assignment; how sure a pair is follows from it."""

import math

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from models.intake.columns.assignment import best_assignment, confidences

GAINS = st.dictionaries(
    st.tuples(st.integers(0, 6), st.integers(0, 8)), st.floats(-3, 8, allow_subnormal=False), max_size=40
)


def total(gains: dict[tuple[int, int], float], chosen: dict[int, int]) -> float:
    return math.fsum(gains[pair] for pair in chosen.items())


def reference(gains: dict[tuple[int, int], float]) -> float:
    table = np.zeros((7, 16))
    for pair, gain in gains.items():
        table[pair] = max(gain, 0.0)
    rows, places = linear_sum_assignment(table, maximize=True)
    return float(table[rows, places].sum())


@given(GAINS)
def test_no_pairing_gains_more(gains: dict[tuple[int, int], float]) -> None:
    chosen = best_assignment(gains)
    assert len(set(chosen.values())) == len(chosen)
    assert all(gains[pair] > 0 for pair in chosen.items())
    assert math.isclose(total(gains, chosen), reference(gains), abs_tol=1e-9)


@given(GAINS)
def test_a_pair_is_as_sure_as_the_loss_without_it(gains: dict[tuple[int, int], float]) -> None:
    chosen = best_assignment(gains)
    for pair, sure in zip(chosen.items(), confidences(gains, chosen).values(), strict=True):
        without = {other: gain for other, gain in gains.items() if other != pair}
        loss = total(gains, chosen) - reference(without)
        assert math.isclose(sure, 1 / (1 + math.exp(-loss)), abs_tol=1e-9)
        assert sure >= 0.5
