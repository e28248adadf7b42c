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
from models.values.setting_names import heading
from models.values.streams import stream

LINES = demo_lines("manifest_new_brand.csv").take(np.arange(6))


def said(settings: dict[str, Any], as_of: dt.date = AS_OF) -> str:
    held = in_force([read_given(settings)])
    question = Question(LINES, Problems(6, 6, 0, ()), (), "six lines", held, as_of, 1)
    cautions = appraise(question, demo_model(), lambda share, step: None).document["cautions"]
    return " ".join(one["what"] for one in cautions)


def test_an_old_history_is_said() -> None:
    assert "ends on 1 Jul 2026" not in said({})
    assert "ends on 1 Jul 2026, 92 days before" in said({}, dt.date(2026, 10, 1))


def test_a_day_before_the_sales_is_said() -> None:
    assert "rests on sales up to 1 Jul 2026" in said({}, dt.date(2025, 1, 1))


def test_days_in_the_past_are_said() -> None:
    lot = {"closes_at": "2020-01-01T00:00:00Z", "arrives_on": "2001-01-01"}
    told = said({"lot": lot})
    assert "ended on 1 Jan 2020" in told
    assert "arrival is given as 1 Jan 2001, before this answer's day; it counts as today" in told


def test_goods_that_would_come_before_payment_are_said() -> None:
    closes = {"closes_at": "2026-08-20T12:00:00Z"}
    assert "count as arriving on 20 Aug 2026, when you pay" in said({"lot": closes})
    early = said({"lot": closes | {"arrives_on": "2026-08-01"}})
    assert "given as 1 Aug 2026, before you pay for the goods on 20 Aug 2026; it counts as that day" in early
    for silent in (closes | {"arrives_on": "2026-08-20"}, {"closes_at": "2026-07-11T12:00:00Z"}):
        assert "arriv" not in said({"lot": silent})


def test_another_currency_than_the_history_is_refused() -> None:
    with pytest.raises(Rejected, match="never converted"):
        answer(LINES, {"currency": "EUR"})


def test_lines_without_a_condition_count_as_untested() -> None:
    blank = replace(LINES, condition=np.full(6, -1, dtype=np.int8))
    untested = replace(LINES, condition=np.full(6, 4, dtype=np.int8))
    told = answer(blank, {}).document
    assert any("know: all 6 lines" in one["what"] for one in told["cautions"])
    cash = [float(answer(lines, {}).document["cash_proceeds"]["mean"]) for lines in (blank, untested)]
    assert cash[0] < 1.4 * cash[1]


def test_a_lot_that_rests_on_leftovers_says_so() -> None:
    few, many = (replace(LINES, quantity=np.full(6, units)) for units in (1, 900))
    assert not any("leftover value" in one["what"] for one in answer(few, {}).document["cautions"])
    told = next(one for one in answer(many, {}).document["cautions"] if "leftover value" in one["what"])
    assert told["check"].endswith(f"lower this setting: {heading('selling.leftover_share')}.")
    assert "selling." not in told["check"]


def test_weeks_of_sorting_are_told_for_the_backlog_leaves_them_out() -> None:
    few, many = (replace(LINES, quantity=np.full(6, units)) for units in (1, 900))
    assert not any("sorting" in one["what"] for one in answer(few, {}).document["cautions"])
    document = answer(many, {"backlog": {"hours_per_week": 10}}).document
    told = next(one["what"] for one in document["cautions"] if "sorting" in one["what"])
    hours = document["hours"]["sorting"]["mean"]
    assert f"about {hours:,.0f} hours, as much as {hours / 10:,.0f} of your weeks of listing (10 hours each)" in told


def test_leftovers_are_never_more_than_all_of_it() -> None:
    """Postage above what the one line brings that is listed: the leftovers alone bring more than the lot."""
    lines = demo_lines("manifest_new_brand.csv").take(np.array([38, 43]))  # of some 5 and 80 a unit
    lines = replace(lines, quantity=np.array([5, 40]))
    held = in_force([read_given({"selling": {"postage_each": 20.0, "leftover_share": 0.9}})], demo_model().learned)
    chosen = {int(lines.no[0]): "list", int(lines.no[1]): "never"}
    question = Question(lines, Problems(2, 2, 0, ()), (), "two lines", held, AS_OF, 1, chosen=chosen)
    cautions = appraise(question, demo_model(), lambda share, step: None).document["cautions"]
    told = [one["what"] for one in cautions if "leftover value" in one["what"]]
    assert len(told) == 1
    assert told[0].startswith("All of what this lot may bring is leftover value")


def test_amounts_nobody_knows_in_a_currency_are_named_as_the_settings_page_does() -> None:
    model = replace(demo_model(), currency="JPY", prices=replace(demo_model().prices, currency="JPY"))
    given = {"currency": "JPY", "buying": {"freight": 9000}, "selling": {"packing": 100}}
    told = next(one for one in answer(LINES, given, model).document["cautions"] if "currency is JPY" in one["what"])
    assert heading("buying.other_fees") in told["what"]
    assert heading("buying.freight") not in told["what"]
    assert not [word for word in ("buying.", "selling.", "goals.") if word in told["what"] + told["check"]]


def test_a_history_without_conditions_or_tags_is_said_and_answers_about_the_same() -> None:
    sales = demo_sales()
    lines = demo_lines("manifest_tidy.xlsx")
    blank = np.full(len(sales), np.nan)
    for change, words in (
        ({"condition": np.full(len(sales), -1, dtype=np.int8)}, "leave the condition blank"),
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


def test_costs_of_a_category_that_nobody_has_are_said() -> None:
    assert LINES.category[0] != ""

    def costs(name: str) -> dict[str, Any]:
        return {"selling": {"by_category": {name: {"packing": "9.00"}}}}

    assert "Your costs for 'Nope > Never' change nothing" in said(costs("Nope > Never"))
    top = demo_sales().category[0].split(">")[0].strip()
    for heard in (LINES.category[0].upper(), top.lower(), demo_sales().category[0]):
        assert "change nothing" not in said(costs(heard))


@pytest.mark.parametrize(("n", "words"), [(0, "no usable sale"), (2, "2 usable sales"), (19, "19 usable sales")])
def test_a_history_that_taught_hardly_anything_is_said_before_all_else(n: int, words: str) -> None:
    sold = np.flatnonzero(demo_sales().sold)[:n]
    model = fit(demo_sales().take(sold), AS_OF, "USD", lambda share, step: None)
    assert model.sales_used == n
    document = answer(demo_lines("manifest_tidy.xlsx").take(np.arange(40)), {"buying": {"freight": 0}}, model).document
    told = [one["what"] for one in document["cautions"]]
    assert sum(f"Your history holds {words}: these figures" in one for one in told) == 1
    backs = [one for one in told if "expect your cash back" in one]
    assert len(backs) == (document["bid_ceiling"]["verdict"] == "bid")
    assert all(one.startswith("All of this holds only as far as the declared guesses do.") for one in backs)
    assert {one["source"] for one in document["assumptions"] if one["key"] == "effort.minutes_first"} == {
        "learned" if model.effort.timings else "assumed"  # timings of their own teach, little as they are
    }
    assert (model.effort.timings >= 5) == (n == 19)


def test_a_history_that_taught_enough_is_not_called_a_guess() -> None:
    assert "declared guesses" not in said({})
