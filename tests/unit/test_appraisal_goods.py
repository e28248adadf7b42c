"""Cautions from the lines' own words: on each line, one a kind for the lot, and what that does to the line."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from appraisal_world import AS_OF, answer, demo_model, lines_like

from models.appraisal.appraise import appraise
from models.appraisal.goods import LINES_NAMED
from models.appraisal.question import Evaluation, Question
from models.values.given import read_given
from models.values.goods_kinds import GOODS_KINDS
from models.values.in_force import in_force
from models.values.lines import Lines
from models.values.problems import Problems


def lines(*descriptions: str, **columns: list[Any]) -> Lines:
    return lines_like(description=list(descriptions), tag_each=[4000.0] * len(descriptions), **columns)


def kinds_of(found: Evaluation, no: int) -> list[str]:
    return [one["kind"] for one in found.lines[no - 1]["cautions"] if "kind" in one]


def of_lot(found: Evaluation) -> dict[str, dict[str, Any]]:
    return {one["kind"]: one for one in found.document["cautions"] if "kind" in one}


def unmatched(found: Evaluation) -> list[str]:
    return [one["what"] for one in found.document["cautions"] if one["what"].startswith("No word")]


def test_many_batteries_are_one_caution() -> None:
    count = LINES_NAMED + 40
    found = answer(lines(*[f"Power bank {no}" for no in range(count)], "Mug"), {})
    told = of_lot(found)["battery"]
    assert told["what"].startswith(f"Lithium battery or power bank on {count} lines: ")
    assert (told["count"], told["lines"]) == (count, list(range(1, LINES_NAMED + 1)))
    assert told["source"] == GOODS_KINDS["battery"].source
    assert "line" not in told
    assert [kinds_of(found, no) for no in (1, count, count + 1)] == [["battery"], ["battery"], []]
    assert "Its words: power bank." in found.lines[0]["cautions"][-1]["what"]


def test_a_single_line_is_named_as_such() -> None:
    told = of_lot(answer(lines("Mug", "Perfume 50 ml"), {}))["hazardous_post"]
    assert (told["line"], "lines" in told, told["count"]) == (2, False, 1)


def test_no_match_says_so_and_never_safe() -> None:
    assert unmatched(answer(lines("Mug", "Perfume 50 ml"), {})) == [
        "No word of our cautions matched on 1 of 2 lines: that does not mean that they are safe."
    ]
    assert unmatched(answer(lines("Perfume 50 ml"), {})) == []


@pytest.mark.parametrize("goods", ["Infant car seat", "Bike helmet", "Baby crib", "Infant formula 800 g", "Aspirin"])
def test_kinds_that_usually_are_not_listed_are_never(goods: str) -> None:
    found = answer(lines(goods, "Saucepan"), {})
    assert found.lines[0]["action"] == "never"
    assert found.lines[1]["action"] != "never"
    assert "Not listed here unless you choose to." in found.lines[0]["cautions"][-1]["what"]
    assert found.document["actions"]["never"] == 1


def test_the_shop_may_list_a_kind_anyway() -> None:
    found = answer(lines("Bike helmet", "Baby crib"), {"never": {"listed_anyway": ["helmet"]}})
    assert [one["action"] == "never" for one in found.lines] == [False, True]
    assert kinds_of(found, 1) == ["helmet"], "it is still cautioned"
    assert "Not listed here" not in found.lines[0]["cautions"][-1]["what"]


def test_the_seller_may_choose_one_line() -> None:
    model, helmets = demo_model(), lines("Bike helmet", "Ski helmet")
    question = Question(
        helmets, Problems(2, 2, 0, ()), (), "two", in_force([read_given({})], model.learned), AS_OF, 1,
        chosen={1: "list"},
    )  # fmt: skip
    found = appraise(question, model, lambda share, step: None)
    assert [one["action"] for one in found.lines] == ["list", "never"]
    assert "You chose to list it all the same." in found.lines[0]["cautions"][-1]["what"]
    assert "1 of them are not listed" in of_lot(found)["helmet"]["what"]


def test_opened_cosmetics_are_never_sealed_ones_are_cautioned() -> None:
    found = answer(lines("Lipstick red", "Lipstick red", condition=[0, 1]), {})
    assert [one["action"] == "never" for one in found.lines] == [False, True]
    assert kinds_of(found, 1) == kinds_of(found, 2) == ["cosmetics"]


def test_sealed_devices_hold_no_data_used_and_unknown_ones_may() -> None:
    found = answer(lines(*["Laptop 15 in"] * 3, condition=[0, 2, -1]), {})
    assert ["personal_data" in kinds_of(found, no) for no in (1, 2, 3)] == [False, True, True]


def test_the_shops_own_list_is_told() -> None:
    found = answer(lines("Garden gnome", "Mug"), {"never": {"words": ["gnome"]}})
    assert (kinds_of(found, 1), kinds_of(found, 2)) == (["own_never"], [])
    assert found.lines[0]["action"] == "never"
    assert of_lot(found)["own_never"]["line"] == 1


def test_the_order_of_the_file_changes_no_caution() -> None:
    three = lines("Power bank", "Mug", "Ski helmet")
    back = replace(three.take(np.array([2, 1, 0])), no=np.array([1, 2, 3]))
    one, other = answer(three, {}), answer(back, {})
    assert [kinds_of(one, no) for no in (1, 2, 3)] == [kinds_of(other, no) for no in (3, 2, 1)]
