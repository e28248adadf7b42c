"""Annuity factors: any compound interest table (5% over 5 years 4.32948, ...).  Net present value: the documentation of
numpy-financial, npv(.08, [-40000, 5000, 8000, 12000, 30000]) = 3065.22267.
"""

import numpy as np
import pytest

from models.decide.discount import discount


@pytest.mark.parametrize(
    ("rate", "years", "factor"), [(0.05, 5, 4.32948), (0.08, 5, 3.99271), (0.10, 10, 6.14457), (0.12, 5, 3.60478)]
)
def test_annuity(rate: float, years: int, factor: float) -> None:
    assert discount(365.0 * np.arange(1, years + 1), rate).sum() == pytest.approx(factor, abs=5e-6)


def test_monthly_annuity() -> None:
    yearly = 1.01**12 - 1
    assert discount(365.0 / 12 * np.arange(1, 13), yearly).sum() == pytest.approx(11.25508, abs=5e-6)


def test_net_present_value() -> None:
    flows = np.array([-40000.0, 5000.0, 8000.0, 12000.0, 30000.0])
    assert flows @ discount(365.0 * np.arange(5), 0.08) == pytest.approx(3065.22267, abs=5e-6)


def test_free_money_is_not_discounted_and_a_negative_cost_is_refused() -> None:
    assert discount(np.array([0.0, 900.0]), 0.0).tolist() == [1.0, 1.0]
    with pytest.raises(ValueError, match="at least 0"):
        discount(np.array([1.0]), -0.1)
