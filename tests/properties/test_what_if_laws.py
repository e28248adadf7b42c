"""Reading again is evaluating again: to the cent for buying terms and goals, and while no line changes its action."""

from functools import cache
from typing import Any

import numpy as np
import pytest
from appraisal_world import answer, demo_lines, demo_model
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from stored_lot import stored_lot, under

from models.appraisal.held import reread
from models.appraisal.judge import judge, read_ceiling
from models.appraisal.question import Evaluation
from models.appraisal.read_again import WEEKS_LEFT_OUT, read_again
from models.appraisal.stored import Stored
from models.values.changed import changed_keys, with_setting
from models.values.given import read_given
from models.values.in_force import in_force
from models.values.lines import Lines
from models.values.settings import REGISTRY, Settings

EVALUATED: dict[str, Any] = {
    "buying": {"freight": 40, "bid_step": 5},
    "lot": {"current_bid": 20},
    "goals": {"loss_limit": 60, "cash_limit": 900},
    "backlog": {"hours_per_week": 9, "waiting_units": 70, "weekly_intake_units": 11},
}
SHARES = {"premium": (0, 1), "tax_rate": (0, 1), "payment_surcharge": (0, 1), "common_share": (0, 1)}


def lines() -> Lines:
    return demo_lines("manifest_tidy.xlsx").take(np.arange(0, 8))


def merged(change: dict[str, Any]) -> dict[str, Any]:
    groups = EVALUATED.keys() | change.keys()
    return {group: EVALUATED.get(group, {}) | change.get(group, {}) for group in groups}


@cache
def evaluated() -> Evaluation:
    return answer(lines(), EVALUATED)


def in_force_under(document: dict[str, Any]) -> Settings:
    return in_force([read_given(document)], demo_model().learned).settings


def read(change: dict[str, Any]) -> dict[str, Any]:
    stored = Stored.from_bytes(evaluated().components)
    return read_again(stored, in_force_under(EVALUATED), in_force_under(merged(change)))


def again(change: dict[str, Any]) -> Evaluation:
    return answer(lines(), merged(change))


def decided(told: dict[str, Any]) -> dict[str, Any]:
    """A reading without what it says of itself."""
    return {name: part for name, part in told.items() if name != "held"}


def of(evaluation: Evaluation, told: dict[str, Any]) -> dict[str, Any]:
    """The part of a whole answer that a reading gives; cash by week only where the reading has it."""
    found = {name: evaluation.document[name] for name in decided(told)}
    if "cash_curve" not in told and found["at_ceiling"]:
        found["at_ceiling"] = {name: one for name, one in found["at_ceiling"].items() if name != "payback_weeks"}
    return found


def same_shade(told: dict[str, Any]) -> bool:
    was = evaluated().document["bid_ceiling"]["rivals"]
    return bool(told["bid_ceiling"]["rivals"]["shade"] == was["shade"])


def cents(low: int, high: int) -> st.SearchStrategy[str]:
    return st.integers(low * 100, high * 100).map(lambda amount: f"{amount / 100:.2f}")


def some(**keys: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries({}, optional=keys)


BUYING = some(
    **{name: st.floats(*ends).map(lambda share: round(share, 4)) for name, ends in SHARES.items()},
    freight=cents(0, 200),
    other_fees=cents(0, 200),
    bid_step=st.one_of(cents(1, 50), st.just([["0", "2.50"], ["100", "10"]])),
    rivals=st.one_of(st.sampled_from(["none", "few", "many"]), st.integers(0, 40)),
    bidding=st.sampled_from(["rising", "sealed"]),
)
GOALS = some(
    return_on_cash=st.floats(0, 3).map(lambda share: round(share, 3)),
    confidence=st.floats(0.5, 0.99).map(lambda share: round(share, 3)),
    loss_limit=cents(0, 500),
    loss_chance=st.floats(0.001, 0.5).map(lambda share: round(share, 3)),
    cash_limit=cents(0, 2000),
    max_weeks_to_clear=st.floats(0, 60).map(lambda weeks: round(weeks, 1)),
    max_unsold_units=st.integers(0, 400),
)
LOT = some(pallets=st.integers(0, 4), current_bid=cents(0, 300))


@settings(max_examples=10, deadline=None)
@given(st.fixed_dictionaries({"buying": BUYING, "goals": GOALS, "lot": LOT}))
def test_buying_terms_and_goals_to_the_cent(change: dict[str, Any]) -> None:
    told = read(change)
    assert told["held"] in ([], [WEEKS_LEFT_OUT])
    assert same_shade(told) or "cash_curve" not in told
    assert decided(told) == of(again(change), told)


COSTS = some(
    fee_share=st.floats(0.11, 0.13).map(lambda share: round(share, 4)),
    packing=st.integers(95, 105).map(lambda amount: f"{amount / 100:.2f}"),
    refund_loss_share=st.floats(0.45, 0.55).map(lambda share: round(share, 3)),
    bundle_discount=st.floats(0.24, 0.26).map(lambda share: round(share, 4)),
)


def ways(evaluation: Evaluation) -> list[tuple[str, float]]:
    """How every line is sold: its action, and its listing minutes, which tell the size of a pack."""
    return [(line["action"], line["listing_minutes"]) for line in evaluation.lines]


@settings(max_examples=8, deadline=None)
@given(st.fixed_dictionaries({"selling": COSTS, "goals": some(hourly_pay=cents(14, 16))}))
def test_selling_costs_and_pay_to_the_cent_while_no_line_changes_its_action(change: dict[str, Any]) -> None:
    told, whole = read(change), again(change)
    assume(ways(whole) == ways(evaluated()))
    assert decided(told) == of(whole, told)
    assert [one.split(":")[0] for one in told["held"] if one != WEEKS_LEFT_OUT] == list(
        changed_keys(in_force_under(EVALUATED), in_force_under(merged(change)))
    )
    assert ("cash_curve" in told) == (not any("selling." in one for one in told["held"]))


PASSES: list[dict[str, Any]] = [
    {"lot": {"current_bid": 3000}},
    {"goals": {"max_weeks_to_clear": 0.5}},
    {"lot": {"pallets": 5}, "buying": {"freight": 400}},
    {"goals": {"return_on_cash": 40}},
]


@pytest.mark.parametrize("change", PASSES)
def test_a_change_told_as_exact_makes_a_new_evaluation_a_bid(change: dict[str, Any]) -> None:
    told = again(change).document["bid_ceiling"]
    assert told["verdict"] == "pass"
    exact = [one for one in told["what_would_change"] if not one["held"]]
    assert exact
    for one in exact:
        group, name = one["key"].split(".")
        changed = change | {group: change.get(group, {}) | {name: one["to"]}}
        assert again(changed).document["bid_ceiling"]["verdict"] == "bid", one


STORED = stored_lot()
LOWERS = (
    "buying.freight", "buying.premium", "buying.tax_rate", "buying.payment_surcharge", "selling.fee_share",
    "selling.advertising_share", "selling.packing", "selling.postage_each", "selling.refund_share",
    "selling.refund_loss_share", "effort.minutes_first", "effort.minutes_repeat", "effort.minutes_used_unit",
    "effort.minutes_sort", "effort.minutes_pack", "lot.missing_share", "lot.dead_share", "lot.dead_untested_share",
)  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(LOWERS), st.floats(0, 1), st.floats(0, 1))
def test_more_of_what_costs_money_never_raises_the_ceiling(key: str, one: float, other: float) -> None:
    declared, was = REGISTRY[key], under().settings
    assert declared.low is not None
    assert declared.high is not None
    ceilings = []
    for part in sorted((one, other)):
        now = with_setting(was, key, round(declared.low + part * (declared.high - declared.low), 4))
        ceilings.append(read_ceiling(reread(STORED, was, now).stored, now).unrounded)
    assert ceilings[0] >= ceilings[1]


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 30), st.integers(0, 30), st.sampled_from(["rising", "sealed"]))
def test_more_rivals_never_raise_the_ceiling(one: int, other: int, bidding: str) -> None:
    held = [under({"buying": {"rivals": count, "bidding": bidding}}).settings for count in sorted((one, other))]
    few, many = (judge(STORED, settings).ceiling.unrounded for settings in held)
    assert few >= many
