"""The evaluation follows from itself: a reader with a pocket calculator reaches every rule from the printed figures."""

from decimal import ROUND_FLOOR, Decimal
from functools import cache
from typing import Any

import numpy as np
import pytest
from appraisal_world import answer, demo_lines, demo_model

from models.appraisal.stored import Stored
from models.values.streams import DRAWS

SETTINGS: dict[str, Any] = {
    "buying": {"premium": 0.15, "tax_rate": 0.05, "payment_surcharge": 0.03, "freight": 220, "bid_step": 25},
    "lot": {"pallets": 2, "current_bid": 500},
    "goals": {"loss_limit": 900, "cash_limit": 2500},
    "backlog": {"hours_per_week": 14, "waiting_units": 180, "weekly_intake_units": 22},
}
RATE = Decimal("1.15") * Decimal("1.05") * Decimal("1.03")
FIXED = Decimal(440)


@cache
def document(name: str = "manifest_tidy.xlsx") -> dict[str, Any]:
    return answer(demo_lines(name), SETTINGS).document


def floored(limit: Decimal) -> Decimal:
    return max(Decimal(0), ((limit - FIXED) / RATE).quantize(Decimal("0.01"), ROUND_FLOOR))


def test_every_rule_follows_from_the_printed_figures() -> None:
    told = document()
    cash, after_pay = ({k: Decimal(v) for k, v in told[key].items()} for key in ("cash_proceeds", "proceeds_after_pay"))
    by_rule = {rule: Decimal(bid) for rule, bid in told["bid_ceiling"]["by_rule"].items()}
    assert by_rule == {
        "expected_return": floored(after_pay["mean"] / Decimal("1.3")),
        "confidence": floored(cash["p20"]),
        "loss_limit": floored(cash["p05"] + 900),
        "cash_limit": floored(Decimal(2500)),
    }
    ceiling = told["bid_ceiling"]
    assert Decimal(ceiling["unrounded"]) == min(by_rule.values()) == by_rule[ceiling["binding_rule"]]
    assert Decimal(ceiling["amount"]) == Decimal(ceiling["unrounded"]) // 25 * 25


def test_the_figures_at_the_ceiling_follow() -> None:
    told, at = document(), document()["at_ceiling"]
    out = Decimal(at["cash_out"])
    assert out == (Decimal(told["bid_ceiling"]["amount"]) * RATE + FIXED).quantize(Decimal("0.01"))
    assert Decimal(at["expected_profit"]) == Decimal(told["proceeds_after_pay"]["mean"]) - out
    assert Decimal(at["expected_cash_gain"]) == Decimal(told["cash_proceeds"]["mean"]) - out
    assert at["return_on_cash"] == pytest.approx(float(Decimal(at["expected_profit"]) / out), abs=1e-6)
    hours = Decimal(str(sum(kind["mean"] for kind in told["hours"].values())))
    per_hour = (Decimal(at["expected_profit"]) + 15 * hours) / hours
    assert abs(Decimal(at["profit_per_hour"]) - per_hour) <= Decimal("0.01")


def test_lines_add_up_to_the_lot() -> None:
    evaluation = answer(demo_lines("manifest_tidy.xlsx"), SETTINGS)
    told, lines = evaluation.document, evaluation.lines
    resale = sum(line["quantity"] * Decimal(line["unit_price"]["mean"]) for line in lines)
    assert resale == Decimal(told["resale"]["mean"])
    for key in ("cash_proceeds", "proceeds_after_pay"):
        total = sum(Decimal(line[key]) for line in lines)
        assert abs(total - Decimal(told[key]["mean"])) < Decimal("0.01") * len(lines) + Decimal("12.00")
    counted = told["actions"]
    assert sum(counted.values()) == len(lines) == told["lot"]["lines"]
    assert counted["listed"] == sum(line["action"] == "list" for line in lines)
    assert told["lot"]["units"] == sum(line["quantity"] for line in lines)


def test_the_cash_curve_begins_with_the_cash_out_and_crosses_it_at_the_payback() -> None:
    told = document()
    curve, at = told["cash_curve"], told["at_ceiling"]
    assert [point["week"] for point in curve] == list(range(27))
    assert curve[0] == {"week": 0} | dict.fromkeys(("p10", "p50", "p90"), f"-{at['cash_out']}")
    first = next(point["week"] for point in curve if Decimal(point["p50"]) >= 0)
    assert at["payback_weeks"]["p50"] == first
    slow = at["payback_weeks"]["p90"]
    assert at["payback_weeks"]["p10"] <= first <= (slow if slow is not None else 27)
    whole = Decimal(curve[-1]["p50"]) + Decimal(at["cash_out"])
    assert 1 < whole / Decimal(told["cash_proceeds"]["p50"]) < Decimal("1.05")  # 10% a year for up to half a year


def test_without_a_cost_of_cash_the_curve_ends_with_the_proceeds() -> None:
    told = answer(demo_lines("manifest_new_brand.csv"), {"goals": {"yearly_cost_of_cash": 0}}).document
    paid, last = Decimal(told["at_ceiling"]["cash_out"]), told["cash_curve"][-1]
    for name in ("p10", "p50", "p90"):
        assert abs(Decimal(last[name]) + paid - Decimal(told["cash_proceeds"][name])) <= Decimal("0.01")


def test_on_a_pass_the_curve_is_that_of_a_bid_of_nothing() -> None:
    told = answer(
        demo_lines("manifest_new_brand.csv"), {"buying": {"freight": 60}, "goals": {"cash_limit": 10}}
    ).document
    assert told["at_ceiling"] is None
    assert told["cash_curve"][0]["p50"] == "-60.00"


def test_assumptions_tell_what_they_do_to_the_ceiling() -> None:
    told = document()
    by_key = {one["key"]: one for one in told["assumptions"]}
    assert by_key["buying.freight"]["ceiling_low"] is None  # the seller's own
    fee = by_key["selling.fee_share"]
    amount = Decimal(told["bid_ceiling"]["amount"])
    assert Decimal(fee["ceiling_low"]) <= amount <= Decimal(fee["ceiling_high"])
    assert told["bid_ceiling"]["what_would_change"] == []


def test_components_are_kept_for_every_draw() -> None:
    evaluation = answer(demo_lines("manifest_new_brand.csv"), SETTINGS)
    kept = Stored.from_bytes(evaluation.components).components
    assert kept.gross_sold.shape == (DRAWS,)
    hours = evaluation.document["hours"]
    assert float(kept.minutes_listing.mean()) / 60 == pytest.approx(hours["listing"]["mean"], abs=1e-4)


def test_a_cautious_answer_names_what_to_check() -> None:
    told = document("manifest_messy.csv")
    assert any("tag" in caution["what"].lower() and "line" in caution for caution in told["cautions"])
    assert any("not a promise" in caution["what"] for caution in told["cautions"])


def test_the_model_comes_back_from_its_bytes() -> None:
    model = demo_model()
    again = type(model).from_bytes(model.to_bytes())
    lines = demo_lines("manifest_new_brand.csv")
    assert answer(lines, SETTINGS, again).document == answer(lines, SETTINGS, model).document


def test_another_seed_moves_the_ceiling_only_a_little() -> None:
    one, two = (answer(demo_lines("manifest_tidy.xlsx"), SETTINGS, seed=seed).document for seed in (1, 2))
    assert one != two
    low, high = sorted(float(told["bid_ceiling"]["by_rule"]["confidence"]) for told in (one, two))
    assert high / low < 1.05


def test_chances_lie_between_nothing_and_certainty() -> None:
    curve = document()["bid_curve"]
    assert len(curve) >= 5
    losses = [point["chance_of_cash_loss"] for point in curve]
    assert losses == sorted(losses)
    assert all(0 <= loss <= 1 for loss in losses)
    bids = np.array([float(point["bid"]) for point in curve])
    assert np.all(np.diff(bids) > 0)
