"""Sentences of an answer, as the page and the command say them."""

from typing import Any

import pytest

from api.cli.decision_lines import decision_parts, setting_text
from models.appraisal.what_would_change import LEVERS
from models.services.answer_words import (
    TO_BID,
    backlog_words,
    fixed_costs_words,
    payback_words,
    raised_words,
    steps_words,
    to_bid_words,
    two_ceilings,
)

UNTOLD = {"ceiling_low": None, "ceiling_high": None}
BY_9 = "Half of the time your cash is back by week 9"


def usd(amount: str) -> str:
    return f"{amount} USD"


def written(value: Any, key: str) -> str:
    return setting_text(value, key, usd)


@pytest.mark.parametrize(
    ("weeks", "said"),
    [
        ({"p10": 6, "p50": 9, "p90": 17}, f"{BY_9}; one time in ten not before week 17."),
        ({"p10": 6, "p50": 9, "p90": None}, f"{BY_9}; one time in ten not within 26 weeks."),
        ({"p10": 6, "p50": None, "p90": None}, "Half of the time or more your cash is not back within 26 weeks."),
    ],
)  # fmt: skip
def test_payback(weeks: dict[str, Any], said: str) -> None:
    assert payback_words(weeks, "26 weeks") == said


def test_every_lever_has_a_sentence() -> None:
    assert {lever.key for lever in LEVERS} <= set(TO_BID), "older evaluations may name others"


def test_a_change_names_both_values() -> None:
    change = {"key": "goals.return_on_cash", "from": 0.3, "to": 0.125}
    assert to_bid_words(change, written) == "if you ask for a return of 12.5% on your cash instead of 30%"
    weeks = {"key": "goals.max_weeks_to_clear", "from": 26.0, "to": 31.2}
    assert to_bid_words(weeks, written) == "if your backlog may take 31.2 weeks to clear instead of 26 weeks"


def assumption(key: str, low: Any, high: Any, **more: Any) -> dict[str, Any]:
    held = {"key": key, "value": low, "source": "assumed", "low": low, "high": high}
    return held | {"ceiling_low": "1525.00", "ceiling_high": "1675.00"} | more


@pytest.mark.parametrize(
    ("one", "said"),
    [
        (assumption("buying.tax_rate", 0.0, 0.1), "If you pay no tax: 1675.00 USD; with 10%: 1525.00 USD."),
        (assumption("buying.tax_rate", 0.02, 0.1), "If you pay 2% tax: 1675.00 USD; with 10%: 1525.00 USD."),
        (
            assumption("buying.freight", "150.00", "450.00", ceiling_low="0.00"),
            "If freight is 150.00 USD a pallet: 1675.00 USD; if it is 450.00 USD: pass.",
        ),
        (assumption("buying.freight", "150.00", "450.00", source="yours"), ""),
        (assumption("buying.freight", "150.00", "450.00", ceiling_low="1675.00"), ""),
        (assumption("buying.freight", "150.00", "450.00", ceiling_low=None, ceiling_high=None), ""),
        (assumption("selling.packing", "0.50", "2.00"), ""),
    ],
)
def test_what_can_be_asked_is_told_as_two_ceilings(one: dict[str, Any], said: str) -> None:
    assert two_ceilings(one, written, usd) == said


def test_the_command_tells_what_the_decision_rests_on() -> None:
    document = {
        "bid_ceiling": {
            "what_would_change": [{"key": "buying.freight", "from": "250.00", "to": "90.00"}],
            "steps_left": {"steps": 3, "next_step_cash": "28.75"},
        },
        "at_ceiling": {"payback_weeks": {"p10": 6, "p50": 9, "p90": 17}},
        "actions": {"listed": 131, "bundled": 6, "skipped": 19, "never": 0},
        "assumptions": [
            assumption("selling.advertising_share", 0.0, 0.1), assumption("buying.tax_rate", 0.0, 0.1),
            assumption("effort.minutes_first", 5.0, 20.0), assumption("goals.horizon_weeks", 26.0, None) | UNTOLD,
        ],
    }  # fmt: skip
    told = dict(decision_parts(document, usd))
    assert told["Steps left"] == "3 bid steps above the bid that stands; one adds 28.75 USD."
    assert told["To bid"].endswith("would make it a bid: if freight is 90.00 USD a pallet instead of 250.00 USD.")
    assert told["Payback"].startswith("Half of the time your cash is back by week 9")
    assert told["Actions"] == "131 lines to list singly, 6 in packs, 19 not worth a listing."
    assert told["Assumes"].startswith(
        "Paid promotion: 0%, assumed; between 0% and 10% the ceiling lies between 1525.00"
    )
    assert "A listing" not in told["Assumes"], "the two widest only"
    assert told["Ask first"] == "If you pay no tax: 1675.00 USD; with 10%: 1525.00 USD."
    assert dict(decision_parts({"bid_ceiling": {}}, usd)) == {}


def end(chance: float, profit: str, back: float | None, loss: str) -> dict[str, Any]:
    return {"chance_of_cash_loss": chance, "expected_profit": profit, "return_on_cash": back, "expected_loss": loss}


def test_going_higher_tells_profit_return_and_the_goals_it_breaks() -> None:
    adds = {
        "from": end(0.181, "333.00", 0.32, "40.00"), "to": end(0.184, "247.00", 0.22, "45.00"),
        "breaks": ["expected_return", "confidence", "loss_limit"], "asked_return": 0.3,
    }  # fmt: skip
    assert raised_words(adds, usd) == (
        "Expected profit falls from 333.00 USD to 247.00 USD, the return from 32% to 22%; you ask for 30%. It no longer"
        " meets the return you ask for, how surely your cash must come back and your loss limit. The chance of losing"
        " cash goes from 18.1% to 18.4%, and the loss to expect from 40.00 USD to 45.00 USD."
    )


def test_going_higher_from_nothing_tells_what_the_bid_does() -> None:
    adds = {"from": end(0.0, "0.00", None, "0.00"), "to": end(0.4, "-5.00", -0.02, "9.00"), "breaks": []}
    assert raised_words(adds | {"asked_return": 0.3}, usd) == (
        "Expected profit is -5.00 USD, the return -2%; you ask for 30%."
        " Cash is lost with a chance of 40%, and the loss to expect from that is 9.00 USD."
    )


@pytest.mark.parametrize(
    ("brings", "pallets", "said"),
    [
        ("60.00", 1.0, "Costs alone exceed what it brings: freight and fees are 440.00 USD"),
        ("60.00", 1, "Costs alone exceed what it brings: freight and fees are 440.00 USD"),
        ("500.00", 1, ""),
        ("500.00", 2, "Costs alone exceed what it brings: freight and fees are 880.00 USD"),
    ],
)
def test_costs_that_no_bid_can_pay_are_named(brings: str, pallets: float, said: str) -> None:
    held = {"buying.freight": "440.00", "lot.pallets": pallets, "buying.other_fees": "0.00"}
    document = {
        "cash_proceeds": {"mean": brings},
        "assumptions": [{"key": key, "value": value} for key, value in held.items()],
    }
    told = fixed_costs_words(document, usd)
    assert told.startswith(said) if said else not told


def test_a_backlog_that_never_clears_says_whose_doing_that_is() -> None:
    never, clears = {"weeks_to_clear": None, "grows_hours_per_week": 3.1}, {"weeks_to_clear": 4.0}
    assert backlog_words({"before": never, "after": never}) == (
        "Your backlog never clears, with or without this lot: it grows by 3.1 hours a week."
    )
    assert backlog_words({"before": clears, "after": never}).startswith("With this lot your backlog never clears")
    assert backlog_words({"before": clears, "after": clears}) == backlog_words({}) == ""


@pytest.mark.parametrize(
    ("steps", "standing", "said"),
    [
        (0, "600.00", "The bid already stands at your ceiling: bid no more, unless the bid that stands is yours."),
        (0, "590.00", "The next bid step is above your ceiling: bid no more, unless the bid that stands is yours."),
        (1, "575.00", "1 bid step is left above the bid that stands; the next one adds 28.75 USD to what you pay."),
        (1200, "1.00", "1,200 bid steps are left above the bid that stands; the next one adds"),
    ],
)
def test_steps_that_are_left_or_not(steps: int, standing: str, said: str) -> None:
    ceiling = {"verdict": "bid", "amount": "600.00", "steps_left": {"steps": steps, "next_step_cash": "28.75"}}
    assert steps_words(ceiling, standing, usd).startswith(said)
    assert steps_words(ceiling | {"verdict": "pass"}, standing, usd) == ""
    assert steps_words(ceiling, None, usd) == ""


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (0.0, 0.012, "from 0% to 1%"),
        (0.001, 0.012, "from under 1% to 1%"),
        (0.001, 0.004, "from 0.1% to 0.4%"),
        (0.0, 0.004, "from 0% to under 1%"),
        (0.997, 0.998, "from 99.7% to 99.8%"),
        (0.983, 0.999, "from 98% to over 99%"),
        (0.0001, 0.0002, "from under 1% to under 1%"),
    ],
)
def test_a_small_chance_is_not_told_as_none(low: float, high: float, said: str) -> None:
    ends = [
        {"chance_of_cash_loss": share, "expected_loss": "1", "expected_profit": "1", "return_on_cash": 0.3}
        for share in (low, high)
    ]
    adds = {"from": ends[0], "to": ends[1], "breaks": [], "asked_return": 0.3}
    assert f"The chance of losing cash goes {said}, and" in raised_words(adds, usd)
