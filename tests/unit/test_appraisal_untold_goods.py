"""Cautions of what was assumed for want of a word: goods sold untested, goods of which nobody says how they came in."""

import re
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from appraisal_world import AS_OF, demo_lines, demo_sales

from models.appraisal.appraise import appraise
from models.appraisal.question import Question
from models.appraisal.training import fit
from models.values.arrays import texts
from models.values.conditions import Condition, code_of
from models.values.given import read_given
from models.values.in_force import in_force
from models.values.problems import Problems
from models.values.sales import Sales

LINES = demo_lines("manifest_tidy.xlsx")
UNTESTED = code_of(Condition.UNTESTED)


def cautions(sales: Sales, lines: Any = LINES) -> list[str]:
    model = fit(sales, AS_OF, "USD", lambda share, step: None)
    held = in_force([read_given({})], model.learned)
    question = Question(lines, Problems(len(lines), len(lines), 0, ()), (), "a lot", held, AS_OF, 1)
    document = appraise(question, model, lambda share, step: None).document
    return [one["what"] for one in document["cautions"]]


@pytest.fixture(name="few", scope="module")
def _few() -> Sales:
    sales = demo_sales()
    return sales.take(np.arange(len(sales)) % 5 == 0)


def test_a_history_that_hides_how_its_goods_came_in_is_told_what_that_costs(few: Sales) -> None:
    silent = replace(few, sourced=np.full(len(few), -1, dtype=np.int8), lot=texts([""] * len(few)))
    bulk = replace(silent, sourced=np.ones(len(few), dtype=np.int8))
    cut = f"cut by about {1 - np.exp(-0.38 * 2 / 3):.0%}"  # declared: .38 log units, a blank is one third bulk
    assert [cut in one for one in cautions(silent) if "picked one by one" in one] == [True]
    assert not any("picked one by one" in one for one in cautions(bulk))


def test_untested_lines_are_said_to_be_priced_as_tested_ones(few: Sales) -> None:
    untested = replace(LINES, condition=np.full(len(LINES), UNTESTED, dtype=np.int8))
    own = replace(few, condition=np.where(np.arange(len(few)) % 3 == 0, UNTESTED, few.condition).astype(np.int8))
    own = replace(own, sold_price=np.where(own.condition == UNTESTED, own.sold_price / 3, own.sold_price))
    said = [one for one in cautions(own, untested) if "sell as working" in one]
    assert len(said) == 1
    assert f"all {len(LINES)} lines are untested" in said[0].lower()
    assert "25% of them dead" in said[0]
    told = re.search(r"as (\d+) of your sales were, they fetch about (\d+)% less than", said[0])
    assert told is not None
    assert int(told[1]) == pytest.approx((own.sold & (own.condition == UNTESTED)).sum(), rel=0.03)  # some are of no use
    assert int(told[2]) == pytest.approx(100 * (1 - 1 / 3), abs=6)
    assert not any("another condition than you sold" in one for one in cautions(own, untested))
    working = replace(LINES, condition=np.full(len(LINES), code_of(Condition.WORKS), dtype=np.int8))
    assert not any("sell as working" in one for one in cautions(own, working))
