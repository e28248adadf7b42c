"""Terms: our own worked figures, in cents."""

import pytest

from models.decide.terms import cash_out, fixed_cash, highest_bid, next_step, round_down_to_step, steps_between
from models.values.money import floor_minor
from models.values.settings import Buying

LADDER = ((0.0, 500.0), (10000.0, 1000.0), (25000.0, 2500.0))


def terms(tax_rate: float = 0.0, freight: float = 0.0) -> Buying:
    return Buying(premium=0.15, payment_surcharge=0.03, tax_rate=tax_rate, freight=freight)


@pytest.mark.parametrize(("tax_rate", "unrounded", "amount"), [(0.0, 168847, 167500.0), (0.08, 156340, 155000.0)])
def test_two_thousand_in_cash(tax_rate: float, unrounded: int, amount: float) -> None:
    bid = highest_bid(200000.0, terms(tax_rate), 1)
    assert floor_minor(bid) == unrounded
    assert round_down_to_step(floor_minor(bid), ((0.0, 2500.0),)) == amount


def test_freight_lowers_the_limit_by_its_share_of_the_hammer_price() -> None:
    without, with_freight = (
        floor_minor(highest_bid(200000.0, terms(freight=freight), 1)) for freight in (0.0, 35535.0)
    )
    assert without - with_freight == 30000


def test_cash_out_and_highest_bid_are_inverse() -> None:
    held = Buying(premium=0.17, tax_rate=0.0825, payment_surcharge=0.029, freight=31234.0, other_fees=250.0)
    assert highest_bid(cash_out(123456.0, held, 3), held, 3) == pytest.approx(123456.0)
    assert fixed_cash(held, 3) == 3 * 31234.0 + 250.0
    assert highest_bid(fixed_cash(held, 3) - 1, held, 3) == 0.0


@pytest.mark.parametrize(
    ("bid", "down", "up"),
    [
        (0.0, 0.0, 500.0),
        (499.0, 0.0, 500.0),
        (500.0, 500.0, 1000.0),
        (9900.0, 9500.0, 10000.0),
        (10000.0, 10000.0, 11000.0),
        (24999.0, 24000.0, 25000.0),
        (25000.0, 25000.0, 27500.0),
        (26000.0, 25000.0, 27500.0),
        (500.0 * (1 - 1e-16), 500.0, 1000.0),
    ],
)
def test_ladder(bid: float, down: float, up: float) -> None:
    assert round_down_to_step(bid, LADDER) == down
    assert next_step(bid, LADDER) == up


def test_a_range_that_is_no_whole_number_of_steps() -> None:
    ladder = ((0.0, 3000.0), (10000.0, 5000.0))
    climbed = [0.0]
    while climbed[-1] < 25000.0:
        climbed.append(next_step(climbed[-1], ladder))
    assert climbed == [0.0, 3000.0, 6000.0, 9000.0, 10000.0, 15000.0, 20000.0, 25000.0]
    assert steps_between(0.0, 25000.0, ladder) == 7


@pytest.mark.parametrize("low", [0.0, 250.0, 9999.0, 10000.0, 26000.0, 90000.0])
@pytest.mark.parametrize("high", [0.0, 499.0, 10000.0, 24000.0, 61000.0])
def test_steps_between_counts_the_climb(low: float, high: float) -> None:
    count, bid = 0, low
    while (bid := next_step(bid, LADDER)) <= high:
        count += 1
    assert steps_between(low, high, LADDER) == count
