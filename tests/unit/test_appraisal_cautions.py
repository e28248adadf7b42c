"""What does not fit together is said: old sales, days in the past, another currency, lines without a condition."""

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from appraisal_world import AS_OF, answer, demo_lines, demo_model, demo_sales

from models.appraisal.appraise import appraise
from models.appraisal.question import Question
from models.appraisal.training import fit
from models.values.errors import Rejected
from models.values.given import read_given
from models.values.in_force import in_force
from models.values.problems import Problems
from models.values.sales import Sales
from models.values.streams import stream

LINES = demo_lines("manifest_new_brand.csv").take(np.arange(6))


def said(settings: dict[str, Any], as_of: dt.date = AS_OF) -> str:
    held = in_force([read_given(settings)])
    question = Question(LINES, Problems(6, 6, 0, ()), (), "six lines", held, as_of, 1)
    cautions = appraise(question, demo_model(), lambda share, step: None).document["cautions"]
    return " ".join(one["what"] for one in cautions)


def test_an_old_history_is_said() -> None:
    assert "ends on 2026-07-01" not in said({})
    assert "ends on 2026-07-01, 92 days before" in said({}, dt.date(2026, 10, 1))


def test_a_day_before_the_sales_is_said() -> None:
    assert "rests on sales up to 2026-07-01" in said({}, dt.date(2025, 1, 1))


def test_days_in_the_past_are_said() -> None:
    lot = {"closes_at": "2020-01-01T00:00:00Z", "arrives_on": "2001-01-01"}
    told = said({"lot": lot})
    assert "ended on 2020-01-01" in told
    assert "arrival is given as 2001-01-01" in told


def test_another_currency_than_the_history_is_refused() -> None:
    with pytest.raises(Rejected, match="never converted"):
        answer(LINES, {"currency": "EUR"})


def test_lines_without_a_condition_count_as_untested() -> None:
    blank = replace(LINES, condition=np.full(6, -1, dtype=np.int8))
    untested = replace(LINES, condition=np.full(6, 4, dtype=np.int8))
    told = answer(blank, {}).document
    assert any("know: 6 of 6 lines" in one["what"] for one in told["cautions"])
    cash = [float(answer(lines, {}).document["cash_proceeds"]["mean"]) for lines in (blank, untested)]
    assert cash[0] < 1.4 * cash[1]


def test_a_lot_that_rests_on_leftovers_says_so() -> None:
    few, many = (replace(LINES, quantity=np.full(6, units)) for units in (1, 900))
    assert not any("leftover value" in one["what"] for one in answer(few, {}).document["cautions"])
    assert any("leftover value" in one["what"] for one in answer(many, {}).document["cautions"])


def test_a_history_without_conditions_or_tags_is_said_and_answers_about_the_same() -> None:
    sales = demo_sales()
    lines = demo_lines("manifest_tidy.xlsx")
    blank = np.full(len(sales), np.nan)
    for change, words in (
        ({"condition": np.full(len(sales), -1, dtype=np.int8)}, "leave condition blank"),
        ({"tag_each": blank}, "no tags to compare with"),
    ):
        model = fit(replace(sales, **change), AS_OF, "USD", lambda share, step: None)
        told = answer(lines, {}, model).document
        assert any(words in one["what"] for one in told["cautions"])
        usual = float(answer(lines, {}).document["resale"]["mean"])
        assert float(told["resale"]["mean"]) == pytest.approx(usual, rel=0.15)


def test_the_order_of_the_history_changes_nothing() -> None:
    sales = demo_sales().take(np.arange(2000, 3500))
    mixed = sales.take(stream(1, "test").permutation(len(sales)))
    one, two = (fit(some, AS_OF, "USD", lambda share, step: None) for some in (sales, mixed))
    assert one.fingerprint == two.fingerprint
    assert one.to_bytes() == two.to_bytes()


def test_a_history_of_titles_and_prices_alone_is_no_wild_guess() -> None:
    sales = demo_sales()
    bare = replace(Sales.blank(len(sales)), title=sales.title, sold_price=sales.sold_price).take(sales.sold)
    told = answer(demo_lines("manifest_tidy.xlsx"), {}, fit(bare, AS_OF, "USD", lambda share, step: None)).document
    usual = float(answer(demo_lines("manifest_tidy.xlsx"), {}).document["resale"]["mean"])
    assert float(told["resale"]["mean"]) == pytest.approx(usual, rel=0.3)
    assert float(told["resale"]["p90"]) < 3 * usual
