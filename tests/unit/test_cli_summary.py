"""What the command line says about an evaluation: the figures of the document, and only those."""

import copy
from typing import Any

import pytest

from api.cli.caution_lines import standing_caution_lines
from api.cli.summary import about_of_ten, counted, fine, summary

DOCUMENT: dict[str, Any] = {
    "lot": {"name": "Pallet nine", "currency": "USD", "lines": 156, "units": 1408, "current_bid": None},
    "model_version": {"number": 1, "trained_on": "2026-07-01", "sales_used": 5992},
    "problems": {"rows": 160, "kept": 156, "set_aside": 4, "items": []},
    "bid_ceiling": {
        "verdict": "bid",
        "amount": "1675.00",
        "unrounded": "1688.47",
        "binding_rule": "confidence",
        "by_rule": {"expected_return": "1822.10", "confidence": "1688.47", "loss_limit": None, "cash_limit": None},
        "room": {"holds": True, "weeks_to_clear": 7.6, "limit": 26.0, "unsold_units": 588.0, "unsold_limit": None},
    },
    "at_ceiling": {"cash_out": "2176.25", "expected_profit": "602.11", "chance_of_cash_loss": 0.2},
    "resale": {"mean": "7904.40", "p10": "6101.00", "p50": "7800.00", "p90": "9902.00"},
    "hours": {
        "sorting": {"mean": 13.6, "p10": 13.0, "p90": 14.0},
        "listing": {"mean": 41.25, "p10": 35.0, "p90": 48.0},
        "packing": {"mean": 30.0, "p10": 27.0, "p90": 33.0},
    },
    "backlog": {
        "before": {
            "units": 180, "hours": 33.0, "weeks_to_clear": 3.1, "clears_on": "2026-07-23", "grows_hours_per_week": None,
        },
        "after": {
            "units": 588, "hours": 74.0, "weeks_to_clear": None, "clears_on": None, "grows_hours_per_week": 1.5,
        },
        "extra_weeks": None,
    },
    "cautions": [
        {"what": "The list covers about 80% of the load.", "check": ""},
        {"line": 4, "what": "The tag is not believed.", "check": "Look it up."},
    ],
}  # fmt: skip


def said(**ceiling: Any) -> str:
    document = copy.deepcopy(DOCUMENT)
    document["bid_ceiling"] |= ceiling
    return " ".join(" ".join(summary(document)).split())


def test_a_bid_is_told_with_its_reason() -> None:
    text = said()
    assert "Pallet nine: 156 lines, 1,408 units, 4 rows set aside" in text
    assert "1,675.00 USD: bid no more than this" in text
    assert "how surely your cash must come back allows 1,688.47 USD" in text
    assert "The lowest counts: how surely your cash must come back." in text
    assert "you pay 2,176.25 USD in all" in text
    assert "lose cash about 2 times in 10" in text


def test_one_is_one_and_a_sum_is_its_parts() -> None:
    assert (counted(1.04, "hour"), counted(0.25, "hour"), counted(2, "unit")) == ("1 hour", "0.2 hours", "2 units")
    assert fine(0.2 + 0.1 + 0.2) == "0.5"


def test_hours_and_backlog_are_told() -> None:
    text = said()
    assert "41.2 to list (35 to 48), 13.6 to sort and test, 30 to pack and post: 84.8 in all" in text
    assert "now 180 units and 33 hours, clear in 3.1 weeks (2026-07-23)" in text
    assert "588 units and 74 hours, never clear: it grows by 1.5 hours a week" in text


def test_own_cautions_are_told_and_those_of_lines_counted() -> None:
    text = said()
    assert "Rests on 5,992 own sales" in text
    assert "The list covers about 80% of the load." in text
    assert "1 cautions about single lines" not in text
    assert "1 caution about a single line" in text


def test_a_pass_for_want_of_room_names_the_limit() -> None:
    room = {"holds": False, "weeks_to_clear": 31.04, "limit": 26.0, "unsold_units": 5.0, "unsold_limit": None}
    text = said(verdict="pass", amount="0.00", room=room)
    assert "pass: do not bid on this lot" in text
    assert "would take 31.0 weeks to clear; your limit is 26 weeks" in text


def test_a_pass_for_want_of_shelves_names_the_units() -> None:
    room = {"holds": False, "weeks_to_clear": 3.0, "limit": 26.0, "unsold_units": 588.0, "unsold_limit": 400.0}
    assert "588 units would wait unsold, your limit is 400" in said(verdict="pass", amount="0.00", room=room)


def test_other_currencies_keep_their_digits() -> None:
    document = copy.deepcopy(DOCUMENT)
    document["lot"]["currency"] = "JPY"
    document["bid_ceiling"]["amount"] = "167500"
    assert any("167,500 JPY: bid" in line for line in summary(document))


@pytest.mark.parametrize(
    ("share", "words"),
    [(0.2, "about 2 times in 10"), (0.24, "about 2.4 times in 10"), (0.01, "less than 1 time in 20")],
)
def test_chances_in_words(share: float, words: str) -> None:
    assert about_of_ten(share) == words


def test_standing_cautions_name_what_is_the_sellers_to_check() -> None:
    text = " ".join(standing_caution_lines())
    for word in ("estimate", "not a promise", "without return", "Recalled", "Tax", "licences", "local rules"):
        assert word in text


def test_a_backlog_that_never_clears_is_not_this_lots_doing() -> None:
    document = copy.deepcopy(DOCUMENT)
    document["backlog"]["before"] |= {"weeks_to_clear": None, "clears_on": None, "grows_hours_per_week": 1.5}
    text = " ".join(" ".join(summary(document)).split())
    assert "now 180 units and 33 hours; with this lot 588 units and 74 hours." in text
    assert "Your backlog never clears, with or without this lot: it grows by 1.5 hours a week." in text


def test_costs_alone_are_why() -> None:
    document = copy.deepcopy(DOCUMENT)
    document["bid_ceiling"] |= {"verdict": "pass", "amount": "0.00", "unrounded": "0.00"}
    document["cash_proceeds"] = {"mean": "60.00"}
    document["assumptions"] = [
        {"key": "buying.freight", "value": "440.00", "source": "yours", "ceiling_low": None, "ceiling_high": None}
    ]
    text = " ".join(" ".join(summary(document)).split())
    assert "Costs alone exceed what it brings: freight and fees are 440.00 USD" in text
    assert "The lowest counts" not in text


def test_a_ceiling_that_is_reached_is_said() -> None:
    document = copy.deepcopy(DOCUMENT)
    document["lot"]["current_bid"] = "1675.00"
    document["bid_ceiling"]["steps_left"] = {"steps": 0, "next_step_cash": "28.75"}
    text = " ".join(" ".join(summary(document)).split())
    assert "The bid already stands at your ceiling: bid no more, unless the bid that stands is yours." in text
