"""Expected maxima of normals: Harter 1961, Expected values of normal order statistics, Biometrika 48:151-165.
Control-chart factors d2 = the mean range = twice the expected maximum: ISO 7870-2.
Buyer's premium: printed examples of auction houses' terms (720 at 15%, 100 at 18%, 100,000 at 10%).
The means of two tied at the top, for a rising price, are our own figures: they recompute by simulation here.
"""

import numpy as np
import pytest

from models.decide.rivals import largest_of, shade_factor, tied_at_top
from models.decide.terms import cash_out, highest_bid
from models.values.settings import Buying
from models.values.streams import stream

HARTER = {
    2: 0.56418958, 3: 0.84628438, 4: 1.02937537, 5: 1.16296447, 6: 1.26720636, 7: 1.35217838, 8: 1.42360031,
    9: 1.48501316, 10: 1.53875273, 12: 1.62922764, 15: 1.73591344, 20: 1.86747506, 30: 2.04276084, 50: 2.24907363,
    100: 2.50759364,
}  # fmt: skip
D2 = (1.128, 1.693, 2.059, 2.326, 2.534, 2.704, 2.847, 2.970, 3.078)  # samples of 2 to 10


@pytest.mark.parametrize(("count", "printed"), HARTER.items())
def test_expected_maximum(count: int, printed: float) -> None:
    assert largest_of(count) == pytest.approx(printed, abs=1e-6)


@pytest.mark.parametrize(("size", "printed"), list(enumerate(D2, start=2)))
def test_control_chart_factor(size: int, printed: float) -> None:
    assert 2 * largest_of(size) == pytest.approx(printed, abs=6e-4)


@pytest.mark.parametrize(("rivals", "stated"), [(1, 0.0), (2, 0.326), (3, 0.536), (4, 0.688), (5, 0.806), (8, 1.052)])
def test_two_tied_at_the_top(rivals: int, stated: float) -> None:
    assert tied_at_top(rivals) == pytest.approx(stated, abs=6e-4)


@pytest.mark.parametrize("rivals", [2, 3, 8])
def test_two_tied_at_the_top_by_simulation(rivals: int) -> None:
    """Among many drawn shops, those whose two best estimates are within .02 of each other."""
    best = np.sort(stream(1, "tied").standard_normal((400_000, rivals + 1)), axis=1)[:, -2:]
    tied = best[best[:, 1] - best[:, 0] < 0.02].mean(axis=1)
    assert tied.mean() == pytest.approx(tied_at_top(rivals), abs=4 * tied.std() / len(tied) ** 0.5 + 1e-3)


def test_counts_between_whole_numbers_rise_steadily() -> None:
    counts = np.linspace(1, 12, 45)
    assert all(np.diff([largest_of(count) for count in counts]) > 0)
    assert all(np.diff([tied_at_top(count) for count in counts]) > 0)


@pytest.mark.parametrize("rivals", [0.0, 0.4, 1.0])
def test_a_rising_price_with_one_rival_or_none_needs_no_shade(rivals: float) -> None:
    assert shade_factor(rivals, 0.5, 0.3, "rising") == 1.0


def test_a_sealed_bid_is_shaded_more_than_a_rising_one() -> None:
    assert shade_factor(3, 0.5, 0.3, "sealed") == pytest.approx(np.exp(-1.02937537 * 0.5**0.5 * 0.3), abs=1e-7)
    assert shade_factor(3, 0.5, 0.3, "rising") == pytest.approx(np.exp(-0.536 * 0.5**0.5 * 0.3), abs=1e-4)
    assert shade_factor(3, 0.0, 0.3, "sealed") == shade_factor(3, 0.5, 0.0, "sealed") == 1.0


@pytest.mark.parametrize(
    "wrong", [(-1, 0.5, 0.3, "rising"), (3, 1.5, 0.3, "rising"), (3, 0.5, -0.1, "sealed"), (3, 0.5, 0.3, "dutch")]
)
def test_what_makes_no_sense_is_refused(wrong: tuple[float, float, float, str]) -> None:
    with pytest.raises(ValueError, match="must be"):
        shade_factor(*wrong)


def test_counts_below_their_range_are_refused() -> None:
    with pytest.raises(ValueError, match="at least 1"):
        largest_of(0.5)
    with pytest.raises(ValueError, match="at least 0"):
        tied_at_top(-0.5)


@pytest.mark.parametrize(
    ("hammer", "premium", "printed"), [(720, 0.15, 828), (100, 0.18, 118), (100_000, 0.10, 110_000)]
)
def test_buyers_premium_as_printed(hammer: float, premium: float, printed: float) -> None:
    terms = Buying(premium=premium, freight=0.0)
    assert cash_out(hammer * 100.0, terms, 1) == pytest.approx(printed * 100.0, abs=1e-6)
    assert highest_bid(printed * 100.0, terms, 1) == pytest.approx(hammer * 100.0, abs=1e-6)
