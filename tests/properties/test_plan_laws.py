"""Laws of a bid plan: more to choose from or more cash never earns less, order changes nothing, one lot is itself."""

from typing import Any

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from models.decide.plan import Candidate, bid_plan
from models.decide.plan_search import JointLimits
from models.values.streams import stream

DRAWS = 32


@st.composite
def candidates(draw: st.DrawFn) -> Candidate:
    """A lot whose figures are whole minor units."""
    rng = stream(draw(st.integers(0, 2**32 - 1)), "a lot of the laws")
    cash_out = float(draw(st.integers(1, 2000)))
    cash = np.rint(cash_out * rng.lognormal(0.2, 0.5, DRAWS))
    return Candidate(cash_out, draw(st.floats(0, 50)), cash, cash - draw(st.integers(0, 300)))


LOTS = st.lists(candidates(), min_size=1, max_size=8)
LIMITS = st.builds(
    JointLimits,
    cash=st.floats(0, 8000),
    hours=st.floats(0, 200),
    confidence=st.sampled_from((0.5, 0.8, 0.95)),
    loss_limit=st.one_of(st.none(), st.floats(0, 1000)),
)


def changed(limits: JointLimits, **other: Any) -> JointLimits:
    return JointLimits(**(vars(limits) | other))


@settings(max_examples=60, deadline=None)
@given(lots=LOTS, more=candidates(), limits=LIMITS)
def test_one_more_candidate_never_earns_less(lots: list[Candidate], more: Candidate, limits: JointLimits) -> None:
    before, after = bid_plan(lots, limits), bid_plan([*lots, more], limits)
    assert after.figures.expected_profit >= before.figures.expected_profit


@settings(max_examples=60, deadline=None)
@given(lots=LOTS, limits=LIMITS, cash=st.floats(0, 4000), hours=st.floats(0, 100))
def test_more_cash_and_hours_never_earn_less(
    lots: list[Candidate], limits: JointLimits, cash: float, hours: float
) -> None:
    more = changed(limits, cash=limits.cash + cash, hours=limits.hours + hours)
    assert bid_plan(lots, more).figures.expected_profit >= bid_plan(lots, limits).figures.expected_profit


@settings(max_examples=60, deadline=None)
@given(lots=LOTS, limits=LIMITS)
def test_a_plan_keeps_to_its_limits_and_says_why_not_more(lots: list[Candidate], limits: JointLimits) -> None:
    plan = bid_plan(lots, limits)
    assert plan.gap == 0
    assert plan.figures.cash_out <= limits.cash + 1e-6
    assert plan.figures.hours <= limits.hours + 1e-6
    assert plan.figures.chance_of_cash_loss <= 1 - limits.confidence + 1e-9
    assert not plan.chosen or plan.figures.sure_cash >= plan.figures.cash_out
    if plan.figures.worst_loss is not None and limits.loss_limit is not None:
        assert plan.figures.worst_loss <= limits.loss_limit
    assert sorted([*plan.chosen, *(one.lot for one in plan.left_out)]) == list(range(len(lots)))
    assert all(one.over is None or one.over > 0 for one in plan.left_out)


@settings(max_examples=60, deadline=None)
@given(lots=LOTS, limits=LIMITS, seed=st.integers(0, 100))
def test_the_order_of_the_lots_earns_the_same(lots: list[Candidate], limits: JointLimits, seed: int) -> None:
    order = stream(seed, "order").permutation(len(lots))
    mixed = bid_plan([lots[at] for at in order], limits)
    assert mixed.figures.expected_profit == bid_plan(lots, limits).figures.expected_profit


@settings(max_examples=60, deadline=None)
@given(lot=candidates())
def test_a_plan_of_one_lot_is_that_lot(lot: Candidate) -> None:
    plan = bid_plan([lot], JointLimits(1e9, 1e9, 0.5))
    if plan.chosen:
        assert plan.figures.expected_profit == lot.profit
        assert plan.figures.cash_out == lot.cash_out
        assert plan.figures.sd == plan.figures.sd_apart
        assert plan.figures.chance_of_cash_loss == float((lot.cash < lot.cash_out).mean())
    else:
        assert plan.left_out[0].hindrance in ("no profit", "confidence")
