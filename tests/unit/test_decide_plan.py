"""A bid plan of a few lots: what is chosen, what is left out, and what a search that was cut short admits."""

from typing import Any

import numpy as np
import pytest

from models.decide import plan_search
from models.decide.plan import Candidate, bid_plan
from models.decide.plan_search import JointLimits, LotTable, best_lots

PLENTY = JointLimits(cash=1e6, hours=1e6, confidence=0.8)


def lot(cash_out: float, profit: float, hours: float = 1.0, cash: tuple[float, ...] = (5000.0,) * 5) -> Candidate:
    return Candidate(cash_out, hours, np.array(cash), np.full(5, cash_out + profit))


def hindrances(lots: list[Candidate], **limits: Any) -> dict[int, tuple[str, float | None]]:
    plan = bid_plan(lots, JointLimits(**(vars(PLENTY) | limits)))
    return {one.lot: (one.hindrance, one.over) for one in plan.left_out}


def test_nothing_to_choose_from_is_an_empty_plan() -> None:
    plan = bid_plan([], PLENTY)
    assert (plan.chosen, plan.gap, plan.left_out) == ((), 0.0, ())
    assert (plan.figures.cash_out, plan.figures.return_on_cash, plan.figures.cash_proceeds.mean) == (0, None, 0)


def test_each_hindrance_is_named_with_what_is_too_much() -> None:
    good, small = lot(1000, 500, 10), lot(400, 100, 4)
    assert hindrances([good, small], cash=900) == {0: ("cash alone", 100.0)}
    assert hindrances([good, small], hours=9) == {0: ("hours alone", 1.0)}
    assert hindrances([good, small], cash=1250) == {1: ("cash", 150.0)}
    assert hindrances([good, small], hours=12) == {1: ("hours", 2.0)}
    assert hindrances([good, lot(400, 0)]) == {1: ("no profit", None)}


def test_goals_of_the_sum_keep_lots_out() -> None:
    risky = lot(1000, 500, cash=(0.0, 0.0, 3000.0, 3000.0, 3000.0))
    assert hindrances([risky]) == {0: ("confidence", None)}
    assert hindrances([risky], confidence=0.6) == {}
    assert hindrances([risky], confidence=0.6, loss_limit=999.0, loss_chance=0.2) == {0: ("loss limit", None)}
    assert hindrances([risky], confidence=0.6, loss_limit=1000.0, loss_chance=0.2) == {}


def test_a_lot_may_make_room_for_another_in_the_goals() -> None:
    low = lot(1000, 500, cash=(0.0, 0.0, 3000.0, 3000.0, 3000.0))
    sure = lot(1000, 1, cash=(3000.0, 3000.0, 1000.0, 1000.0, 1000.0))
    plan = bid_plan([low, sure], PLENTY)
    assert (plan.chosen, plan.figures.chance_of_cash_loss) == ((0, 1), 0.0)
    assert (plan.figures.sure_cash, plan.figures.worst_loss) == (3000.0, None)


def test_the_worst_loss_is_that_of_the_sum() -> None:
    some = lot(1000, 500, cash=(400.0, 3000.0, 3000.0, 3000.0, 3000.0))
    goals = {"loss_limit": 1500.0, "loss_chance": 0.05}
    assert bid_plan([some, some], JointLimits(**(vars(PLENTY) | goals))).figures.worst_loss == 1200.0


def test_draws_and_limits_that_do_not_fit_are_refused() -> None:
    with pytest.raises(ValueError, match="same number of draws"):
        bid_plan([lot(1, 1), lot(1, 1, cash=(1.0,))], PLENTY)
    with pytest.raises(ValueError, match="at least 0"):
        bid_plan([lot(1, 1)], JointLimits(cash=-1.0, hours=1.0, confidence=0.8))
    with pytest.raises(ValueError, match="one length"):
        best_lots(LotTable(np.ones(1), np.ones(2), np.ones(2), np.ones((2, 3))), PLENTY)


def test_a_search_cut_short_admits_what_it_did_not_see(monkeypatch: pytest.MonkeyPatch) -> None:
    lots = [lot(100.0 + 7 * no, 50.0 + no % 5, 1.0 + no % 3) for no in range(20)]
    limits = JointLimits(cash=1000.0, hours=14.0, confidence=0.8)
    whole = bid_plan(lots, limits)
    monkeypatch.setattr(plan_search, "_MOST_LOOKS", 3)
    hasty = bid_plan(lots, limits)
    assert whole.gap == 0
    assert hasty.gap > 0
    assert hasty.figures.expected_profit <= whole.figures.expected_profit
    assert whole.figures.expected_profit <= hasty.figures.expected_profit + hasty.gap
    assert "no profit" not in {one.hindrance for one in hasty.left_out}
