"""Looked-up prices that look like slips: asked about first, not counted until a second agrees."""

from typing import Any

import pytest
from appraisal_world import AS_OF, demo_lines, demo_model

from models.appraisal.appraise import appraise
from models.appraisal.question import Evaluation, Question
from models.values.given import read_given
from models.values.in_force import in_force
from models.values.problems import Problems

LINES = demo_lines("manifest_new_brand.csv")
NO = 30  # its tag is 111.46; such goods fetch some 20 to 60


def asked(*prices: float, action: str | None = None) -> Evaluation:
    held = in_force([read_given({})], demo_model().learned)
    typed_in: dict[str, Any] = {"looked_up": {NO: prices}} if prices else {}
    chosen = {NO: action} if action else {}
    problems = Problems(len(LINES), len(LINES), 0, ())
    question = Question(LINES, problems, (), "a lot", held, AS_OF, 1, chosen=chosen, **typed_in)
    return appraise(question, demo_model(), lambda share, step: None)


def ceiling(evaluation: Evaluation) -> float:
    return float(evaluation.document["bid_ceiling"]["unrounded"])


@pytest.mark.parametrize("action", [None, "never"])
@pytest.mark.parametrize("price", [1_299_900.0, 999_999_900.0, 12.0])
def test_one_price_far_off_changes_no_ceiling(price: float, action: str | None) -> None:
    assert ceiling(asked(price, action=action)) == ceiling(asked(action=action))


def test_it_is_asked_about_first_with_its_line_and_the_amounts() -> None:
    told = asked(1_299_900.0)
    first = told.document["cautions"][0]
    assert first["what"].startswith("You typed $12,999 for line 30; by your own sales 9 of 10 such goods fetch $")
    assert first["what"].endswith("and its tag is $111.46. It was not counted.")
    assert "line" not in first, "it is of the whole lot"
    line = next(one for one in told.lines if one["no"] == NO)
    assert line["looked_up_prices"] == ["12999.00"], "what was typed stays"
    assert line["cautions"][0]["what"] == first["what"]


def test_a_slip_among_others_leaves_the_others_counted() -> None:
    one, other = asked(4_500.0, 450_000.0), asked(4_500.0)
    assert ceiling(one) == ceiling(other)
    assert "You typed $4,500 for line 30" in one.document["cautions"][0]["what"]


def test_two_that_agree_are_counted_and_still_asked_about() -> None:
    told = asked(1_299_900.0, 1_350_000.0)
    assert ceiling(told) > 2 * ceiling(asked())
    assert told.document["cautions"][0]["what"].endswith("It was counted.")


def test_prices_far_from_each_other_are_asked_about() -> None:
    told = asked(1_500.0, 4_000.0, 9_000.0).document["cautions"][0]
    assert told["what"] == "The prices you typed for line 30 run from $15 to $90. All were counted."


def test_ordinary_prices_are_not_asked_about() -> None:
    told = asked(3_000.0, 5_000.0).document["cautions"]
    assert not [one for one in told if "you typed" in one["what"].lower()]
