"""The risk of one bid: chance and money of losing cash, against closed forms and laws."""

import math

import numpy as np
import pytest
from scipy.stats import norm

from models.decide.cash_risk import NOT_BOUGHT, cash_risk
from models.values.settings import Buying, Settings

PLAIN = Settings(buying=Buying(premium=0.0, freight=0.0))
RANKS = (np.arange(8192) + 0.5) / 8192


def test_normal_proceeds_fall_short_as_the_closed_form_says() -> None:
    """E[(C - V)+] = (C - mean) Phi(z) + sd phi(z), z = (C - mean) / sd, for normal V."""
    cash = np.rint(100_000 + 30_000 * norm.ppf(RANKS))
    for bid in (40_000.0, 80_000.0, 100_000.0, 150_000.0):
        z = (bid - 100_000) / 30_000
        told = cash_risk(bid, cash, PLAIN)
        assert told.chance_of_cash_loss == pytest.approx(norm.cdf(z), abs=2e-4)
        assert told.expected_loss == pytest.approx((bid - 100_000) * norm.cdf(z) + 30_000 * norm.pdf(z), abs=15)


def test_lognormal_proceeds_too() -> None:
    """E[(C - V)+] = C Phi(d) - exp(mu + s^2/2) Phi(d - s), d = (ln C - mu) / s, for log-normal V."""
    mu, s = 11.0, 0.4
    cash = np.rint(np.exp(mu + s * norm.ppf(RANKS)))
    for bid in (40_000.0, 60_000.0, 90_000.0):
        d = (math.log(bid) - mu) / s
        expected = bid * norm.cdf(d) - math.exp(mu + s * s / 2) * norm.cdf(d - s)
        assert cash_risk(bid, cash, PLAIN).expected_loss == pytest.approx(expected, abs=15)


def test_what_is_paid_beside_the_bid_counts() -> None:
    terms = Settings(buying=Buying(premium=0.15, payment_surcharge=0.03, freight=10_000.0))
    told = cash_risk(100_000.0, np.full(10, 120_000.0), terms)
    assert (told.cash_out, told.chance_of_cash_loss, told.expected_loss) == (128_450.0, 1.0, 8_450.0)


def test_one_step_up_adds_its_money_times_a_chance_in_between() -> None:
    cash = np.rint(100_000 + 30_000 * norm.ppf(RANKS))
    low, high = cash_risk(90_000.0, cash, PLAIN), cash_risk(95_000.0, cash, PLAIN)
    more = high.expected_loss - low.expected_loss
    assert 5_000 * low.chance_of_cash_loss - 1 <= more <= 5_000 * high.chance_of_cash_loss + 1


def test_just_breaking_even_is_no_loss_and_no_draws_are_no_answer() -> None:
    told = cash_risk(100.0, np.full(4, 100.0), PLAIN)
    assert (told.chance_of_cash_loss, told.expected_loss) == (0.0, 0.0)
    assert NOT_BOUGHT.cash_out == 0.0
    with pytest.raises(ValueError, match="at least one"):
        cash_risk(1.0, np.array([]), PLAIN)
