"""Quantiles without interpolation."""

import numpy as np
import pytest

from models.decide.quantiles import lowest_at, money_spread, spread


def brute(draws: np.ndarray, chance: float) -> float:
    """The definition, tried on every candidate; chance as a whole number of draws."""
    return max(float(c) for c in draws if (draws < c).sum() <= round(chance * len(draws), 6))


@pytest.mark.parametrize("chance", [0.0, 0.05, 0.1, 1 - 0.9, 0.2, 1 - 0.8, 0.25, 0.3, 0.5, 1 - 0.95, 0.9, 0.99])
@pytest.mark.parametrize("draws", [[1, 2, 3, 4, 5, 6, 7, 8, 9, 10], [5, 5, 5, 1, 9, 9, -3, 0, 0, 0], [4]])
def test_the_definition(draws: list[float], chance: float) -> None:
    values = np.array(draws, dtype=float)
    assert lowest_at(values, chance) == brute(values, chance)


def test_binary_fractions_do_not_shift_it() -> None:
    draws = np.arange(10.0)
    assert lowest_at(draws, 1 - 0.9) == lowest_at(draws, 0.1) == 1.0


def test_what_is_printed_is_what_the_rules_read() -> None:
    draws = np.rint(np.random.Generator(np.random.Philox(1)).lognormal(11, 0.4, 8192))
    printed = money_spread(draws)
    assert printed.p20 == lowest_at(draws, 1 - 0.80)
    assert printed.p05 == lowest_at(draws, 0.05)
    assert printed.mean == round(draws.mean())
    shares = (printed.p05, printed.p10, printed.p20, printed.p25, printed.p50, printed.p75, printed.p80, printed.p90)
    assert list(shares) == sorted(shares)
    assert spread(draws).p90 == printed.p90


@pytest.mark.parametrize("chance", [-0.1, 1.0])
def test_a_chance_outside_its_range_is_refused(chance: float) -> None:
    with pytest.raises(ValueError, match="chance"):
        lowest_at(np.arange(3.0), chance)


@pytest.mark.parametrize("draws", [[], [1.0, float("nan")], [float("inf")]])
def test_draws_that_are_no_numbers_are_refused(draws: list[float]) -> None:
    with pytest.raises(ValueError, match="finite"):
        money_spread(np.array(draws))
