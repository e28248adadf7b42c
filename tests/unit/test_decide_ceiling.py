"""The ceiling and its figures, reckoned again in decimal arithmetic from what is printed, as a reader would."""

from dataclasses import replace
from decimal import ROUND_FLOOR, ROUND_HALF_EVEN, Decimal

import numpy as np
import pytest

from models.decide.ceiling import LotDraws, bid_ceiling
from models.decide.figures import bid_curve, figures_at
from models.decide.quantiles import money_spread
from models.decide.room import Room, room
from models.values.money import written
from models.values.settings import Buying, Goals, LotTerms, Settings

FREE = Room(True, 4.0, 26.0, 40.0, None)
FULL = replace(FREE, holds=False, weeks_to_clear=None)
DRAWS = np.rint(np.random.Generator(np.random.Philox(1)).lognormal(np.log(450000), 0.35, 8192))
LOT = LotDraws(DRAWS, np.rint(DRAWS - 61234.4), hours=41.7)
BUYING = Buying(premium=0.13, tax_rate=0.0825, payment_surcharge=0.029, freight=31234.0, other_fees=250.0)
SETTINGS = Settings(
    buying=replace(BUYING, bid_step=((0.0, 2500.0),)),
    goals=Goals(loss_limit=50000.0, cash_limit=400000.0),
    lot=LotTerms(pallets=2.0),
)


def printed(minor: float) -> Decimal:
    return Decimal(written(minor, "USD"))


def cents(amount: Decimal, rounding: str = ROUND_HALF_EVEN) -> Decimal:
    return amount.quantize(Decimal("0.01"), rounding=rounding)


RATE = Decimal("1.13") * Decimal("1.0825") * Decimal("1.029")
FIXED = Decimal("312.34") * 2 + Decimal("2.50")


def test_every_rule_follows_from_what_is_printed() -> None:
    got = bid_ceiling(LOT, SETTINGS, FREE)
    cash, after = money_spread(LOT.cash), money_spread(LOT.after_pay)
    limits = {
        "expected_return": printed(after.mean) / Decimal("1.3"),
        "confidence": printed(cash.p20),
        "loss_limit": printed(cash.p05) + 500,
        "cash_limit": Decimal(4000),
    }
    for rule, limit in limits.items():
        bid = got.by_rule[rule]
        assert bid is not None
        assert printed(bid) == cents((limit - FIXED) / RATE, ROUND_FLOOR), rule
    held = [bid for bid in got.by_rule.values() if bid is not None]
    assert got.unrounded == min(held) == got.by_rule[got.binding_rule]
    assert got.amount == got.unrounded // 2500 * 2500
    assert (got.verdict, got.steps_left) == ("bid", None)


def test_every_figure_at_the_ceiling_follows_from_what_is_printed() -> None:
    amount = bid_ceiling(LOT, SETTINGS, FREE).amount
    got = figures_at(amount, LOT, SETTINGS)
    paid = printed(got.cash_out)
    assert paid == cents(printed(amount) * RATE + FIXED)
    cash, after = money_spread(LOT.cash), money_spread(LOT.after_pay)
    assert printed(got.expected_profit) == printed(after.mean) - paid
    assert printed(got.expected_cash_gain) == printed(cash.mean) - paid
    assert got.return_on_cash == pytest.approx(float((printed(after.mean) - paid) / paid), abs=1e-12)
    hours = Decimal("41.7")
    assert got.profit_per_hour is not None
    assert printed(got.profit_per_hour) == cents((printed(got.expected_profit) + 15 * hours) / hours)
    assert got.chance_of_cash_loss == (LOT.cash < float(paid * 100)).mean()
    assert got.chance_below_pay == (LOT.after_pay < float(paid * 100)).mean()


def test_a_confidence_that_is_not_printed_reads_its_own_quantile() -> None:
    settings = replace(SETTINGS, goals=Goals(confidence=0.93, return_on_cash=0.0))
    got = bid_ceiling(LOT, settings, FREE)
    assert got.binding_rule == "confidence"
    lost = figures_at(got.amount, LOT, settings).chance_of_cash_loss
    assert 0.05 < lost <= 0.07


def test_rules_that_are_off() -> None:
    got = bid_ceiling(LOT, replace(SETTINGS, goals=Goals()), FREE)
    assert (got.by_rule["loss_limit"], got.by_rule["cash_limit"]) == (None, None)
    assert set(got.by_rule) == {"expected_return", "confidence", "loss_limit", "cash_limit"}


def test_no_room_is_a_pass_that_still_shows_its_rules() -> None:
    got = bid_ceiling(LOT, replace(SETTINGS, lot=LotTerms(current_bid=10000.0)), FULL)
    assert (got.verdict, got.amount) == ("pass", 0.0)
    assert got.unrounded > 0
    assert got.steps_left is not None
    assert got.steps_left.steps == 0


def test_nothing_left_to_bid_is_a_pass() -> None:
    poor = LotDraws(LOT.cash - 430000.0, LOT.after_pay - 430000.0, 41.7)
    got = bid_ceiling(poor, SETTINGS, FREE)
    assert (got.verdict, got.amount, got.unrounded) == ("pass", 0.0, 0.0)
    assert min(bid for bid in got.by_rule.values() if bid is not None) == 0.0
    curve = bid_curve(got.unrounded, poor, SETTINGS)
    bids = [point.bid for point in curve]
    assert len(bids) >= 5
    assert bids == sorted(set(bids))
    assert bids[0] > 0


def test_less_than_one_bid_step_is_a_pass() -> None:
    settings = replace(SETTINGS, buying=replace(BUYING, bid_step=((0.0, 1e7),)))
    assert bid_ceiling(LOT, settings, FREE).verdict == "pass"


def test_the_bid_that_stands() -> None:
    amount = bid_ceiling(LOT, SETTINGS, FREE).amount
    below, at, above = (
        bid_ceiling(LOT, replace(SETTINGS, lot=LotTerms(pallets=2.0, current_bid=bid)), FREE)
        for bid in (amount - 6000, amount, amount + 1)
    )
    assert below.steps_left is not None
    assert (below.verdict, below.steps_left.steps) == ("bid", 3)
    assert printed(below.steps_left.next_step_cash) == cents(10 * RATE)  # from 60.00 below to 50.00 below
    assert at.steps_left is not None
    assert (at.verdict, at.steps_left.steps) == ("bid", 0)
    assert printed(at.steps_left.next_step_cash) == cents(25 * RATE)
    assert above.steps_left is not None
    assert (above.verdict, above.amount, above.steps_left.steps) == ("pass", 0.0, 0)


def test_the_curve_rises_through_the_ceiling() -> None:
    got = bid_ceiling(LOT, SETTINGS, FREE)
    curve = bid_curve(got.unrounded, LOT, SETTINGS)
    bids = [point.bid for point in curve]
    assert got.amount in bids
    assert bids == sorted(set(bids))
    assert bids[0] <= 0.5 * got.amount
    assert bids[-1] >= 1.3 * got.amount
    assert all(bid % 2500 == 0 for bid in bids)
    losses = [point.chance_of_cash_loss for point in curve]
    assert losses == sorted(losses)
    assert curve[bids.index(got.amount)] == figures_at(got.amount, LOT, SETTINGS)


def test_a_curve_with_a_step_as_large_as_the_ceiling_has_five_bids() -> None:
    settings = replace(SETTINGS, buying=replace(BUYING, bid_step=((0.0, 200000.0),)))
    bids = [point.bid for point in bid_curve(230000.0, LOT, settings)]
    assert bids == [200000.0, 400000.0, 600000.0, 800000.0, 1000000.0]


def test_a_curve_of_a_lot_without_any_worth_starts_at_the_first_bid() -> None:
    worthless = LotDraws(np.zeros(10), np.zeros(10), 0.0)
    assert [point.bid for point in bid_curve(0.0, worthless, SETTINGS)] == [2500.0 * k for k in range(1, 6)]


def test_no_hours_and_no_cash_give_no_ratio() -> None:
    free = Settings(buying=Buying(freight=0.0))
    got = figures_at(0.0, LotDraws(np.zeros(10), np.zeros(10), 0.0), free)
    assert (got.return_on_cash, got.profit_per_hour) == (None, None)


@pytest.mark.parametrize(
    ("weeks", "units", "goals", "holds"),
    [
        (26.0, 100.0, Goals(), True),
        (26.1, 100.0, Goals(), False),
        (None, 100.0, Goals(), False),
        (3.0, 100.0, Goals(max_unsold_units=100.0), True),
        (3.0, 100.5, Goals(max_unsold_units=100.0), False),
    ],
)
def test_room(weeks: float | None, units: float, goals: Goals, holds: bool) -> None:
    assert room(weeks, units, goals).holds is holds
