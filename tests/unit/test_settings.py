"""A settings document: what is refused, where each value comes from, and how money is held."""

import datetime as dt

import pytest

from models.values.errors import Rejected
from models.values.given import read_given
from models.values.in_force import in_force
from models.values.settings import REGISTRY


def test_every_fault_is_named_with_its_key() -> None:
    with pytest.raises(Rejected) as caught:
        read_given({"buying": {"premium": 1.5, "freight": "abc", "colour": 1}, "goals": {"confidence": True}, "x": {}})
    assert set(caught.value.faults) == {"buying.premium", "buying.freight", "buying.colour", "goals.confidence", "x"}


@pytest.mark.parametrize("value", [float("nan"), float("inf"), "1e999", -1])
def test_a_money_setting_must_be_a_finite_amount(value: object) -> None:
    with pytest.raises(Rejected):
        read_given({"buying": {"freight": value}})


def test_lot_before_shop_before_learned_before_default() -> None:
    lot = read_given({"buying": {"premium": 0.2}})
    shop = read_given({"buying": {"premium": 0.1, "freight": 300}})
    held = in_force([lot, shop], {"backlog": {"hours_per_week": 9.5}, "buying": {"freight": "1"}})
    assert held.settings.buying.premium == 0.2
    assert held.settings.buying.freight == 30000.0
    assert held.settings.backlog.hours_per_week == 9.5
    assert [held.origins[key] for key in ("buying.premium", "backlog.hours_per_week", "goals.confidence")] == [
        "yours",
        "learned",
        "assumed",
    ]


def test_another_currency_has_no_assumed_amounts_but_a_bid_step_of_one_unit() -> None:
    held = in_force([{"currency": "JPY"}])
    assert held.settings.buying.freight == 0.0
    assert held.settings.goals.hourly_pay == 0.0
    assert held.settings.goals.loss_limit is None
    assert held.settings.buying.bid_step == ((0.0, 1.0),)
    freight = next(one for one in held.assumptions if one.key == "buying.freight")
    assert (freight.value, freight.low, freight.high) == ("0", None, None)


def test_every_setting_in_force_is_an_assumption_with_its_range() -> None:
    held = in_force([])
    assert [one.key for one in held.assumptions] == list(REGISTRY)
    freight = next(one for one in held.assumptions if one.key == "buying.freight")
    assert (freight.value, freight.low, freight.high, freight.source) == ("250.00", "150.00", "450.00", "assumed")


def test_bid_steps_and_dates_are_read() -> None:
    given = read_given(
        {
            "buying": {"bid_step": [[0, 5], [100, "12.5"]]},
            "lot": {"arrives_on": dt.date(2026, 7, 11), "closes_at": "2026-07-01T20:00:00+02:00"},
        }
    )
    settings = in_force([given]).settings
    assert settings.buying.bid_step == ((0.0, 500.0), (10000.0, 1250.0))
    assert settings.lot.arrives_on == dt.date(2026, 7, 11)
    assert given["lot"]["closes_at"] == "2026-07-01T18:00:00Z"


@pytest.mark.parametrize("steps", [[], [[5, 5]], [[0, 5], [0, 6]], [[0, 0]], 0, [[0, [[0, 1]]]]])
def test_unusable_bid_steps_are_refused(steps: object) -> None:
    with pytest.raises(Rejected):
        read_given({"buying": {"bid_step": steps}})


def test_category_costs_override_the_general_ones() -> None:
    given = read_given({"selling": {"fee_share": 0.1, "by_category": {"Toys": {"packing": 2}}}})
    held = in_force([given])
    settings = held.settings
    told = next(one for one in held.assumptions if one.key == 'selling.by_category."Toys".packing')
    assert (told.value, told.source) == ("2.00", "yours")
    assert settings.selling_for("Toys > Dolls").packing == 200.0
    assert settings.selling_for("Toys > Dolls").fee_share == 0.1
    assert settings.selling_for("Garden").packing == 100.0
    with pytest.raises(Rejected) as caught:
        read_given({"selling": {"by_category": {"Toys": {"nonsense": 2}}}})
    assert list(caught.value.faults) == ['selling.by_category."Toys".nonsense']


@pytest.mark.parametrize("name", ["dead_share", "dead_untested_share"])
def test_more_bad_units_than_units_are_refused(name: str) -> None:
    assert read_given({"lot": {"missing_share": 0.4, name: 0.6}})
    with pytest.raises(Rejected) as error:
        read_given({"lot": {"missing_share": 0.7, name: 0.7}})
    assert list(error.value.faults) == [f"lot.{name}"]
