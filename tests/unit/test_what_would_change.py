"""On a pass: every change that is told would give a bid by itself, and the step before it would not."""

from typing import Any

import pytest
from stored_lot import stored_lot, under

from models.appraisal.decision_document import decision_document
from models.appraisal.in_the_way import way_cautions
from models.appraisal.judge import judge
from models.appraisal.what_would_change import LEVERS, MOST_TOLD, what_would_change
from models.values.changed import with_setting
from models.values.fields import Unit
from models.values.given import read_given
from models.values.settings import REGISTRY, Settings

STORED = stored_lot()
GRAIN = {lever.key: lever.grain for lever in LEVERS}


def told(settings: Settings) -> list[dict[str, Any]]:
    return what_would_change(STORED, settings, judge(STORED, settings))


def verdict(settings: Settings, key: str, value: Any) -> str:
    return judge(STORED, with_setting(settings, key, value)).ceiling.verdict


def back_a_step(one: dict[str, Any]) -> Any:
    """The value one step nearer to what holds now, as a document writes it."""
    key, money = one["key"], REGISTRY[one["key"]].unit is Unit.MONEY
    step = GRAIN[key] / (100 if money else 1)
    to, start = float(one["to"]), float(one["from"])
    value = to + step if start > to else to - step
    return f"{value:.2f}" if money else round(value, 6)


PASSES: list[dict[str, Any]] = [
    {"goals": {"return_on_cash": 12}},
    {"goals": {"cash_limit": 100}},
    {"goals": {"loss_limit": 0, "loss_chance": 0.001}, "buying": {"freight": 700}},
    {"buying": {"freight": 1300}},
    {"buying": {"freight": 700}, "lot": {"pallets": 2}},
    {"lot": {"current_bid": 900}},
    {"lot": {"current_bid": 620}, "buying": {"bid_step": 25}},
    {"goals": {"max_weeks_to_clear": 1}},
    {"goals": {"max_unsold_units": 149}},
    {"backlog": {"hours_per_week": 0.4}},
    {"backlog": {"weekly_intake_units": 80}},
]


@pytest.mark.parametrize("document", PASSES)
def test_each_change_gives_a_bid_by_itself_and_no_smaller_one_does(document: dict[str, Any]) -> None:
    settings = under(document).settings
    changes = told(settings)
    assert judge(STORED, settings).ceiling.verdict == "pass"
    assert 1 <= len(changes) <= MOST_TOLD
    for one in changes:
        read_given({one["key"].split(".")[0]: {one["key"].split(".")[1]: one["to"]}})  # legal
        assert verdict(settings, one["key"], one["to"]) == "bid", one
        assert verdict(settings, one["key"], back_a_step(one)) == "pass", one


def test_a_bid_needs_no_change() -> None:
    assert told(under().settings) == []


def test_two_things_in_the_way_are_both_named_and_no_single_change_is_told() -> None:
    settings = under({"goals": {"max_weeks_to_clear": 1, "cash_limit": 100}, "buying": {"freight": 9000}}).settings
    decision = judge(STORED, settings)
    ceiling = decision_document(STORED, decision, settings)["bid_ceiling"]
    assert ceiling["what_would_change"] == []
    assert ceiling["in_the_way"] == ["expected_return", "confidence", "cash_limit", "room"]
    (said,) = way_cautions(ceiling)
    assert "your cash limit and the room in your backlog stand in the way" in said["what"]


def test_what_stands_in_the_way_is_what_the_printed_rules_say() -> None:
    free = decision_document(STORED, judge(STORED, under().settings), under().settings)["bid_ceiling"]
    assert (free["in_the_way"], way_cautions(free)) == ([], [])
    settings = under({"goals": {"max_weeks_to_clear": 1}}).settings
    room_only = decision_document(STORED, judge(STORED, settings), settings)["bid_ceiling"]
    assert room_only["in_the_way"] == ["room"]
    assert way_cautions(room_only) == []  # a single change is told instead
    settings = under({"lot": {"current_bid": 900}}).settings
    ceiling = decision_document(STORED, judge(STORED, settings), settings)["bid_ceiling"]
    assert ceiling["in_the_way"] == [rule for rule, bid in ceiling["by_rule"].items() if bid and float(bid) < 900]


@pytest.mark.parametrize("document", [{"goals": {"hourly_pay": 90}}, {"buying": {"other_fees": 1500}}])
def test_what_only_other_terms_could_mend_is_named_and_promises_nothing(document: dict[str, Any]) -> None:
    settings = under(document).settings
    ceiling = decision_document(STORED, judge(STORED, settings), settings)["bid_ceiling"]
    assert (ceiling["verdict"], ceiling["what_would_change"]) == ("pass", [])
    assert "expected_return" in ceiling["in_the_way"]
    assert "the return after pay that you ask for" in way_cautions(ceiling)[0]["what"]


def test_only_what_a_seller_can_change_is_told() -> None:
    fixed = {"buying.premium", "buying.tax_rate", "buying.payment_surcharge", "goals.hourly_pay"}
    assert not fixed & {lever.key for lever in LEVERS}
    pallets = under({"buying": {"freight": 700}, "lot": {"pallets": 2}}).settings
    assert {one["key"]: one["to"] for one in told(pallets)}["lot.pallets"] == 1.0


def test_what_a_new_evaluation_may_move_is_marked() -> None:
    held = {one["key"]: one["held"] for one in told(under({"backlog": {"hours_per_week": 0.4}}).settings)}
    assert held["backlog.hours_per_week"] == [
        "backlog.hours_per_week: keeps when each line is listed and how soon it sells."
    ]
    assert held["goals.max_weeks_to_clear"] == []


def test_a_price_that_ran_away_names_the_bid_that_would_do() -> None:
    """The ceiling on the ladder is the most that the standing bid may be."""
    settings = under({"lot": {"current_bid": 900}, "buying": {"bid_step": 25}}).settings
    free = judge(STORED, under({"buying": {"bid_step": 25}}).settings).ceiling.amount
    found = {one["key"]: one for one in told(settings)}
    assert found["lot.current_bid"]["from"] == "900.00"
    assert float(found["lot.current_bid"]["to"]) * 100 == free


def test_smallest_changes_come_first() -> None:
    def size(one: dict[str, Any]) -> float:
        low, high = sorted((float(one["from"]), float(one["to"])))
        if one["key"] == "goals.confidence":
            low, high = 1 - high, 1 - low
        return (high - low) / high

    sizes = [size(one) for one in told(under({"lot": {"current_bid": 620}, "buying": {"bid_step": 25}}).settings)]
    assert len(sizes) > 1
    assert sizes == sorted(sizes)


def test_a_room_that_never_clears_is_not_opened_by_more_patience() -> None:
    keys = [one["key"] for one in told(under({"backlog": {"weekly_intake_units": 80}}).settings)]
    assert "goals.max_weeks_to_clear" not in keys
    assert set(keys) == {"backlog.hours_per_week", "backlog.weekly_intake_units"}
