"""What the seller typed in for a line, through the whole appraisal: looked-up prices and their own choice."""

from typing import Any

import numpy as np
import pytest
from appraisal_world import AS_OF, demo_lines, demo_model

from models.appraisal.appraise import appraise
from models.appraisal.question import Evaluation, Question
from models.values.given import read_given
from models.values.in_force import in_force
from models.values.lines import Lines
from models.values.problems import Problems

LINES = demo_lines("manifest_tidy.xlsx")


def asked(lines: Lines = LINES, settings: dict[str, Any] | None = None, **typed_in: Any) -> Evaluation:
    held = in_force([read_given(settings or {})], demo_model().learned)
    problems = Problems(len(lines), len(lines), 0, ())
    question = Question(lines, problems, (), "a lot", held, AS_OF, 1, **typed_in)
    return appraise(question, demo_model(), lambda share, step: None)


@pytest.fixture(name="plain", scope="module")
def _plain() -> Evaluation:
    return asked()


def line_of(evaluation: Evaluation, no: int) -> dict[str, Any]:
    return next(line for line in evaluation.lines if line["no"] == no)


def test_what_to_look_up_first_is_told_in_a_sellers_words(plain: Evaluation) -> None:
    found = plain.document["research_first"]
    assert 0 < len(found) <= 10
    removed = [one["spread_removed"] for one in found]
    assert removed == sorted(removed, reverse=True)
    assert all(0 < share < 1 for share in removed)
    numbers = {line["no"] for line in plain.lines}
    assert all(one["line"] in numbers and "of the lot's value, and " in one["why"] for one in found)
    assert all(set(one) == {"line", "why", "spread_removed"} for one in found)


def test_a_looked_up_price_moves_its_line_and_says_so(plain: Evaluation) -> None:
    no = plain.document["research_first"][0]["line"]
    before = line_of(plain, no)
    price = 2 * float(before["unit_price"]["p50"])
    taught = asked(looked_up={no: (100 * price, 100 * price + 50)})
    after = line_of(taught, no)
    assert after["looked_up_prices"] == [f"{price:.2f}", f"{price + 0.5:.2f}"]
    assert float(before["unit_price"]["p50"]) < float(after["unit_price"]["p50"]) < price + 0.5
    assert after["own_comps"] == before["own_comps"]
    assert after["evidence"] | {"spread": 0} == before["evidence"] | {"spread": 0}
    assert [line["no"] for line in taught.lines if "looked_up_prices" in line] == [no]
    assert float(taught.document["resale"]["mean"]) > float(plain.document["resale"]["mean"])
    again = {one["line"]: one["spread_removed"] for one in taught.document["research_first"]}
    assert again.get(no, 0.0) < plain.document["research_first"][0]["spread_removed"]


def test_no_looked_up_price_changes_nothing_to_the_last_bit(plain: Evaluation) -> None:
    other = asked(looked_up={1: (), 2: ()})
    assert other.document == plain.document
    assert other.lines == plain.lines
    assert other.components == plain.components


def test_the_order_of_lines_still_changes_nothing() -> None:
    lines = LINES.take(np.concatenate([np.arange(len(LINES)), [0, 0]]))  # three lines alike, one of them looked up
    lines.no[-2:] = [901, 902]
    typed_in: dict[str, Any] = {"looked_up": {901: (5000.0, 7000.0), 3: (900.0,)}, "chosen": {902: "skip"}}
    one = asked(lines, **typed_in)
    two = asked(lines.take(np.arange(len(lines))[::-1]), **typed_in)
    assert one.components == two.components
    assert one.document["bid_ceiling"] == two.document["bid_ceiling"]
    assert one.lines == two.lines


@pytest.mark.parametrize(("own", "counted"), [("list", "listed"), ("skip", "skipped"), ("never", "never")])
def test_the_sellers_own_choice_goes_first(plain: Evaluation, own: str, counted: str) -> None:
    no = next(line["no"] for line in plain.lines if line["action"] != own)
    chosen = asked(chosen={no: own})
    line = line_of(chosen, no)
    assert (line["action"], line["action_source"]) == (own, "yours")
    assert chosen.document["actions"][counted] == plain.document["actions"][counted] + 1
    assert "action_source" not in line_of(plain, no)
    minutes = line["listing_minutes"]
    assert (minutes > 0) == (own == "list")


def test_a_line_of_a_brand_never_sold_here_is_listed_if_the_seller_says_so(plain: Evaluation) -> None:
    first = next(line for line in plain.lines if line["brand"] and line["action"] == "list")
    never: dict[str, Any] = {"never": {"brands": [first["brand"]]}}
    assert line_of(asked(settings=never), first["no"])["action"] == "never"
    assert line_of(asked(settings=never, chosen={first["no"]: "list"}), first["no"])["action"] == "list"


@pytest.mark.parametrize("share", [0.25, 3.0])
def test_prices_of_other_goods_move_other_lines_little_and_are_asked_about(plain: Evaluation, share: float) -> None:
    known = next(line for line in plain.lines if line["evidence"]["basis"] == "own_item")
    usual = float(known["unit_price"]["p50"])
    moved = asked(looked_up={known["no"]: tuple(100 * share * usual * step for step in (0.95, 1.0, 1.05))})
    pairs = [
        (float(line_of(moved, line["no"])["unit_price"]["mean"]), float(line["unit_price"]["mean"]))
        for line in plain.lines
    ]
    others = [
        after / before for (after, before), line in zip(pairs, plain.lines, strict=True) if line["no"] != known["no"]
    ]
    assert np.abs(np.log(others)).max() < 0.07
    said = " ".join(one["what"] for one in line_of(moved, known["no"])["cautions"])
    assert "counts only in part" in said
