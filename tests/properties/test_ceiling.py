"""Laws of the bid ceiling; the machine looks for counterexamples."""

from dataclasses import replace

import numpy as np
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from models.decide.ceiling import Ceiling, LotDraws, bid_ceiling
from models.decide.figures import bid_curve, figures_at
from models.decide.quantiles import lowest_at, money_spread
from models.decide.room import Room
from models.decide.terms import cash_out, next_step
from models.values.settings import Buying, Goals, LotTerms, Settings

FREE = Room(True, 4.0, 26.0, 40.0, None)
SHARES = st.floats(0.0, 0.4).map(lambda share: round(share, 4))
MONEY = st.integers(0, 80_000).map(float)
CONFIDENCES = st.floats(0.5, 0.99).map(lambda share: round(share, 3))
STEPS = st.sampled_from([((0.0, 1.0),), ((0.0, 100.0),), ((0.0, 2500.0),), ((0.0, 500.0), (20000.0, 1000.0))])


@st.composite
def lots(draw: st.DrawFn) -> LotDraws:
    """Proceeds with atoms, sometimes negative."""
    seed, size = draw(st.integers(0, 10_000)), draw(st.sampled_from([1, 7, 200]))
    worth, sd = draw(st.floats(100, 400_000)), draw(st.floats(0.0, 1.0))
    normals = np.random.Generator(np.random.Philox(seed)).standard_normal(size)
    cash = np.rint(worth * np.exp(sd * normals) / 50) * 50 - draw(MONEY)
    hours = draw(st.sampled_from([0.0, 0.25, 7.5, 60.0]))
    return LotDraws(cash, np.rint(cash - 1500 * hours), hours)


@st.composite
def terms(draw: st.DrawFn) -> Settings:
    buying = Buying(
        premium=draw(SHARES), tax_rate=draw(SHARES), payment_surcharge=draw(SHARES), freight=draw(MONEY),
        other_fees=draw(MONEY), bid_step=draw(STEPS),
    )  # fmt: skip
    goals = Goals(
        return_on_cash=draw(SHARES), confidence=draw(CONFIDENCES), loss_limit=draw(st.none() | MONEY),
        loss_chance=draw(st.sampled_from([0.001, 0.05, 0.1, 0.5])), cash_limit=draw(st.none() | MONEY),
    )  # fmt: skip
    return Settings(buying=buying, goals=goals, lot=LotTerms(pallets=draw(st.integers(0, 3)) * 1.0))


def ceiling(lot: LotDraws, held: Settings) -> Ceiling:
    return bid_ceiling(lot, held, FREE)


def meets(bid: float, lot: LotDraws, held: Settings) -> list[bool]:
    """Every rule, asked again of one bid from its cash out."""
    goals, paid = held.goals, cash_out(bid, held.buying, held.lot.pallets) - 1e-5
    answers = [
        paid * (1 + goals.return_on_cash) <= money_spread(lot.after_pay).mean + 1e-5,
        (lot.cash < paid).mean() <= 1 - goals.confidence + 1e-9,
    ]
    if goals.loss_limit is not None:
        answers.append((lot.cash + goals.loss_limit < paid).mean() <= goals.loss_chance + 1e-9)
    if goals.cash_limit is not None:
        answers.append(paid <= goals.cash_limit)
    return answers


@given(lot=lots(), held=terms())
def test_the_ceiling_meets_every_rule_and_one_step_more_breaks_one(lot: LotDraws, held: Settings) -> None:
    got = ceiling(lot, held)
    if got.verdict == "bid":
        assert all(meets(got.amount, lot, held))
    more = next_step(got.amount, held.buying.bid_step)
    assert not all(meets(more + 1e-3, lot, held))


@given(lot=lots(), held=terms())
def test_the_amount_is_on_a_step_and_never_above_any_rule(lot: LotDraws, held: Settings) -> None:
    got = ceiling(lot, held)
    bids = [bid for bid in got.by_rule.values() if bid is not None]
    assert 0 <= got.amount <= got.unrounded == min(bids) == got.by_rule[got.binding_rule]
    assert got.unrounded == int(got.unrounded)
    assert got.unrounded < next_step(got.amount, held.buying.bid_step)
    assert (got.verdict == "bid") == (got.amount > 0)


@given(lot=lots(), held=terms(), other=CONFIDENCES)
def test_more_confidence_never_raises_the_ceiling(lot: LotDraws, held: Settings, other: float) -> None:
    low, high = sorted([held.goals.confidence, other])
    less, more = (ceiling(lot, replace(held, goals=replace(held.goals, confidence=one))) for one in (low, high))
    assert more.unrounded <= less.unrounded
    assert more.amount <= less.amount


@given(lot=lots(), held=terms(), more=SHARES, name=st.sampled_from(["premium", "tax_rate", "payment_surcharge"]))
def test_dearer_terms_never_raise_the_ceiling(lot: LotDraws, held: Settings, more: float, name: str) -> None:
    dearer = replace(held, buying=replace(held.buying, **{name: getattr(held.buying, name) + more}))
    assert ceiling(lot, dearer).amount <= ceiling(lot, held).amount


@given(lot=lots(), held=terms(), more=MONEY, name=st.sampled_from(["freight", "other_fees"]))
def test_more_fixed_cash_never_raises_the_ceiling(lot: LotDraws, held: Settings, more: float, name: str) -> None:
    dearer = replace(held, buying=replace(held.buying, **{name: getattr(held.buying, name) + more}))
    assert ceiling(lot, dearer).amount <= ceiling(lot, held).amount


@given(lot=lots(), held=terms(), more=MONEY)
def test_more_proceeds_never_lower_the_ceiling(lot: LotDraws, held: Settings, more: float) -> None:
    richer = LotDraws(lot.cash + more, lot.after_pay + more, lot.hours)
    assert ceiling(richer, held).amount >= ceiling(lot, held).amount


@given(lot=lots(), held=terms(), factor=st.sampled_from([2.0, 3.0, 10.0]))
def test_scaling_all_money_scales_the_ceiling(lot: LotDraws, held: Settings, factor: float) -> None:
    goals, buying = held.goals, held.buying

    def times(amount: float | None) -> float | None:
        return None if amount is None else factor * amount

    scaled = replace(
        held,
        buying=replace(
            buying, freight=factor * buying.freight, other_fees=factor * buying.other_fees,
            bid_step=tuple((factor * start, factor * step) for start, step in buying.bid_step),
        ),
        goals=replace(goals, loss_limit=times(goals.loss_limit), cash_limit=times(goals.cash_limit)),
    )  # fmt: skip
    small, large = ceiling(lot, held), ceiling(LotDraws(factor * lot.cash, factor * lot.after_pay, lot.hours), scaled)
    assert abs(large.unrounded - factor * small.unrounded) <= 2 * factor  # means and bids are whole minor units
    to_next = next_step(small.amount, buying.bid_step) - small.unrounded
    assume(min(small.unrounded - small.amount, to_next) > 2)  # not so near a step that a minor unit decides
    assert large.amount == factor * small.amount


@given(lot=lots(), held=terms())
@settings(max_examples=60)
def test_the_curve_has_five_rising_bids_and_rising_losses(lot: LotDraws, held: Settings) -> None:
    got = ceiling(lot, held)
    curve = bid_curve(got.unrounded, lot, held)
    bids = [point.bid for point in curve]
    assert len(bids) >= 5
    assert all(np.diff([0.0, *bids]) > 0)
    assert all(np.diff([point.chance_of_cash_loss for point in curve]) >= 0)
    assert all(np.diff([point.expected_profit for point in curve]) <= 0)
    if got.verdict == "bid":
        assert got.amount in bids


@given(lot=lots(), held=terms())
def test_at_the_ceiling_the_stated_chance_holds(lot: LotDraws, held: Settings) -> None:
    got = ceiling(lot, held)
    assume(got.verdict == "bid")
    figures = figures_at(got.amount, lot, held)
    assert figures.chance_of_cash_loss <= 1 - held.goals.confidence + 1e-9
    assert figures.return_on_cash is not None
    assert figures.return_on_cash >= held.goals.return_on_cash - 1 / figures.cash_out
    assert figures.expected_cash_gain - figures.expected_profit == (
        money_spread(lot.cash).mean - money_spread(lot.after_pay).mean
    )


@given(lot=lots(), chance=st.floats(0.0, 0.99))
def test_the_quantile_is_the_largest_such_value(lot: LotDraws, chance: float) -> None:
    at = lowest_at(lot.cash, chance)
    assert (lot.cash < at).mean() <= chance + 1e-9
    above = lot.cash[lot.cash > at]
    if len(above):
        assert (lot.cash < above.min()).mean() > chance - 1e-9
