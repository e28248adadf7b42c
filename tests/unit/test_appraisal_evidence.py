"""Evidence and own comps in a line's document: what the price rests on, which tags, which own sales."""

from dataclasses import replace

import numpy as np
import pytest
from appraisal_world import AS_OF, answer, demo_lines, demo_model, demo_sales, lines_like

from models.appraisal.model import Model
from models.appraisal.prepare import prepare
from models.appraisal.question import Question
from models.appraisal.training import fit
from models.estimate.blocks import design
from models.estimate.lot_bulk import bulk_factor
from models.estimate.lot_facts import plain_facts
from models.estimate.price_model import offsets
from models.estimate.products import match
from models.values.arrays import texts
from models.values.in_force import in_force
from models.values.problems import Problems

LAMP = "Tavrenick Desk Lamp Black"


def valued(**columns):
    n = len(columns["description"])
    return answer(lines_like(**{"condition": [1] * n} | columns), {})


def test_a_known_item_shows_its_own_sales_and_says_how_many():
    line = valued(description=[LAMP]).lines[0]
    sales = demo_sales()
    of_item = [at for at in np.flatnonzero(sales.sold) if sales.title[at] == LAMP and sales.condition[at] == 1]
    newest = sorted(of_item, key=lambda at: str(sales.sold_on[at]), reverse=True)[:5]
    assert line["evidence"]["basis"] == "own_item"
    assert line["evidence"]["sales_like_it"] == len(of_item)
    assert line["evidence"]["sales_of_product"] == int(((sales.title == LAMP) & sales.sold).sum())
    assert [one["sale"] for one in line["own_comps"]] == [sales.order_ref[at] for at in newest]
    assert [one["sold_price"] for one in line["own_comps"]] == [f"{sales.sold_price[at] / 100:.2f}" for at in newest]
    assert {one["same"] for one in line["own_comps"]} == {"item"}
    assert {one["condition"] for one in line["own_comps"]} == {"opened"}


def test_goods_never_sold_show_what_is_alike_and_how_much():
    line = valued(description=["Tavrenick Desk Lamp Vermilion", "zzz qqq"], brand=["Tavrenick", ""]).lines[0]
    assert "sales_of_product" not in line["evidence"]
    assert all("Desk Lamp" in one["title"] and 0 < one["likeness"] < 1 for one in line["own_comps"])
    likeness = [one["likeness"] for one in line["own_comps"]]
    assert likeness == sorted(likeness, reverse=True)


def test_what_a_bulk_piece_fetches_against_a_single_find_is_what_the_prices_were_read_with():
    lines = lines_like(description=["Tavrenick Desk Lamp Vermilion"], category=["Home > Lamps"])
    model = demo_model().prices
    matched = match(demo_model().book, lines.description, lines.sku, lines.gtin)
    bulk = plain_facts(lines, matched, model, np.zeros(1))
    single = replace(bulk, bulk=np.zeros(1))
    rows = [design(model.posterior.layout, facts) for facts in (bulk, single)]
    level = [
        offsets(facts, model.centre) + row.times(model.posterior.mean)
        for facts, row in zip((bulk, single), rows, strict=True)
    ]
    assert bulk_factor(model, bulk.top)[0] == pytest.approx(float(np.exp(level[0] - level[1])[0]))


def test_goods_like_nothing_sold_show_nothing():
    assert valued(description=["zzz qqq"]).lines[0]["own_comps"] == []


def test_half_of_the_pieces_lie_in_the_spread_and_it_lies_in_the_wider_one():
    line = valued(description=[LAMP]).lines[0]
    low, high = (float(line["evidence"]["spread"][name]) for name in ("low", "high"))
    price = {name: float(value) for name, value in line["unit_price"].items()}
    assert price["p10"] < low < price["p50"] < high < price["p90"]
    assert line["evidence"]["spread"]["share"] == 0.5


def test_a_price_that_is_not_known_has_no_spread():
    sales = demo_sales().take(np.zeros(0, dtype=np.int64))
    model = fit(sales, AS_OF, "EUR", lambda share, step: None)
    line = answer(lines_like(description=["mug"]), {"currency": "EUR"}, model).lines[0]
    assert "spread" not in line["evidence"]
    assert "tag" not in line["evidence"]
    assert line["own_comps"] == []


def test_a_tag_far_from_own_ones_is_blank_and_the_own_one_is_named():
    found = valued(description=[LAMP, LAMP, LAMP, "zzz"], tag_each=[26990.0, 2600.0, np.nan, 99_999_900.0])
    far, near, none, absurd = found.lines
    assert far["tag_used"] is None
    tag = far["evidence"]["tag"]
    assert (tag["manifest"], tag["own_median"], tag["used"]) == ("269.90", "26.99", "26.99")
    assert "not believed" in tag["said"]
    assert near["tag_used"] == none["tag_used"] == "26.99"
    assert "the list's is 4% lower" in near["evidence"]["tag"]["said"]
    assert set(none["evidence"]["tag"]) == {"own_median", "used", "said"}
    assert absurd["tag_used"] is None
    assert set(absurd["evidence"]["tag"]) == {"manifest", "said"}
    lot = found.document["lot"]
    assert lot["tags"] == {"given": 3, "used": 1, "replaced": 1, "ignored": 1, "not_needed": 0}
    assert lot["tags_ignored"] == 2


@pytest.mark.parametrize(
    ("tag", "said"), [(2699.0, "agrees"), (2750.0, "agrees"), (4049.0, "50% higher"), (1800.0, "33% lower")]
)
def test_two_tags_agree_only_where_they_are_about_the_same(tag, said):
    told = valued(description=[LAMP], tag_each=[tag]).lines[0]["evidence"]["tag"]["said"]
    assert said in told
    assert ("agrees" in told) == (said == "agrees")


def test_a_product_without_a_condition_counts_as_sold_before():
    said = [one["what"] for one in valued(description=[LAMP, "zzz"], condition=[-1, 1]).document["cautions"]]
    assert any("1 of 2 lines is a product you have sold before" in one for one in said)


def test_blank_kinds_change_neither_price_nor_pace_nor_minutes():
    full = demo_lines("manifest_tidy.xlsx")
    known = [line["no"] for line in answer(full, {}).lines if line["evidence"].get("sales_of_product")]
    lines = full.take(np.isin(full.no, known))
    blank = replace(lines, brand=texts([""] * len(lines)), category=texts(["Nonsense"] * len(lines)))
    one, other = answer(lines, {}), answer(blank, {})
    assert len(lines) > 3
    for line, same in zip(one.lines, other.lines, strict=True):
        for name in ("unit_price", "days_to_sell", "evidence", "own_comps"):
            assert line[name] == same[name], (name, line["description"])
    assert one.document["resale"] == other.document["resale"]
    minutes = [by_number(some) for some in (lines, blank)]
    assert minutes[0] == minutes[1]


def test_a_known_line_without_a_category_has_the_selling_costs_of_its_products():
    categories = [next(text for text in demo_sales().category[demo_sales().title == LAMP]), "", "Toys > Dolls"]
    dear = {"selling": {"by_category": {categories[0]: {"fee_share": 0.5}}}}
    cash = [
        float(answer(lines_like(description=[LAMP], category=[text], condition=[1]), dear).lines[0]["cash_proceeds"])
        for text in categories
    ]
    assert cash[1] == pytest.approx(cash[0], rel=0.02)
    assert cash[2] > 1.3 * cash[0]


def by_number(lines):
    """Listing minutes before anything is drawn."""
    problems, held = Problems(len(lines), len(lines), 0, ()), in_force([], demo_model().learned)
    lot = prepare(Question(lines, problems, (), "a lot", held, AS_OF, 1), demo_model())
    return dict(zip(lot.lines.no.tolist(), lot.minutes.listing.tolist(), strict=True))


def test_a_model_kept_before_own_sales_were_shows_none():
    old = Model.from_bytes(replace(demo_model(), comps=None).to_bytes())
    assert old.comps is None
    assert "own_comps" not in answer(lines_like(description=[LAMP]), {}, old).lines[0]
