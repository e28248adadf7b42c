"""A decision read again from stored draws: what is scaled, what is kept, and that it is said."""

import time
from dataclasses import replace
from decimal import Decimal
from typing import Any

import numpy as np
import pytest
from stored_lot import TOYS, stored_lot, under

from models.appraisal.held import reread
from models.appraisal.judge import judge, read_ceiling, read_draws
from models.appraisal.read_again import WEEKS_LEFT_OUT, read_again
from models.appraisal.stored import Stored
from models.decide.cash_curve import weekly_table
from models.decide.costs import Rows, selling_costs
from models.decide.weekly_cash import WeeklyCash
from models.values.packing import pack
from models.values.settings import Settings
from models.values.streams import DRAWS

STORED = stored_lot()
WAS = under().settings


def read(*documents: dict[str, Any]) -> dict[str, Any]:
    return read_again(STORED, WAS, under(*documents).settings)


def mean_cash(settings: Settings) -> float:
    read = reread(STORED, WAS, settings)
    return float(judge(read.stored, settings).draws.cash.mean())


def test_stored_draws_come_back_from_their_bytes_to_the_last_bit() -> None:
    again = Stored.from_bytes(STORED.to_bytes())
    for name, array in STORED.components.arrays().items():
        assert np.array_equal(array, again.components.arrays()[name]), name
    assert (again.as_of, again.paid, again.ends, again.listed_units) == (
        STORED.as_of, STORED.paid, STORED.ends, STORED.listed_units
    )  # fmt: skip
    assert np.isnan(again.unit_minutes)
    assert again.pace_declared is True
    assert read_again(again, WAS, WAS) == read_again(STORED, WAS, WAS)


def test_bytes_of_another_form_are_an_error() -> None:
    with pytest.raises(KeyError):
        Stored.from_bytes(pack({"keys": np.arange(3)}))


def test_the_same_settings_keep_nothing() -> None:
    assert read()["held"] == []
    assert reread(STORED, WAS, WAS).stored is STORED


@pytest.mark.parametrize(
    "document",
    [
        {"buying": {"premium": 0.2, "tax_rate": 0.07, "payment_surcharge": 0.03, "freight": 90, "other_fees": 12}},
        {"buying": {"rivals": 7, "common_share": 0.3, "bidding": "sealed", "bid_step": 25}},
        {"lot": {"pallets": 3, "current_bid": 100}},
        {"goals": {"return_on_cash": 0.1, "confidence": 0.9, "loss_limit": 50, "loss_chance": 0.1, "cash_limit": 700}},
        {"goals": {"max_weeks_to_clear": 2, "max_unsold_units": 10}},
    ],
)
def test_buying_terms_and_goals_are_read_without_keeping_anything(document: dict[str, Any]) -> None:
    told = read(document)
    assert told["held"] == []
    assert told != read()


def test_pay_comes_out_of_what_is_left_only() -> None:
    told, before = read({"goals": {"hourly_pay": 30}}), read()
    assert told["held"] == ["goals.hourly_pay: keeps which lines are listed, bundled or skipped."]
    assert told["cash_proceeds"] == before["cash_proceeds"]
    hours = sum(kind["mean"] for kind in told["hours"].values())
    less = Decimal(before["proceeds_after_pay"]["mean"]) - Decimal(told["proceeds_after_pay"]["mean"])
    assert float(less) == pytest.approx(15 * hours, abs=0.05)


def test_a_fee_reaches_only_the_rows_that_it_holds_for() -> None:
    """Toys have a fee of their own, so the general one leaves them alone; shaded prices throughout."""
    general = mean_cash(under({"selling": {"fee_share": 0.22}}).settings)
    toys = mean_cash(under({"selling": {"by_category": {"Toys": {"fee_share": 0.25}}}}).settings)
    parts = STORED.components
    worth = parts.sold_worth * np.where(parts.packed, 0.75, 1.0)[:, None] + 0.1 * parts.leftover_worth
    per_row = judge(STORED, WAS).shade * worth.mean(axis=1)
    before = mean_cash(WAS)
    assert before - general == pytest.approx(0.10 * per_row[:2].sum(), abs=1)
    assert before - toys == pytest.approx(0.10 * per_row[2:].sum(), abs=1)


def test_a_pack_is_cheaper_than_its_units() -> None:
    told = read({"selling": {"bundle_discount": 0.0}})
    assert "how many units a pack holds" in told["held"][0]
    assert float(told["cash_proceeds"]["mean"]) > float(read()["cash_proceeds"]["mean"])


def test_untested_goods_alone_feel_the_share_of_untested_dead() -> None:
    """Twice the usable share there (.73 to .365): half of that row's money, the others untouched."""
    now = under({"lot": {"dead_untested_share": 0.615}}).settings
    read, before = reread(STORED, WAS, now).stored, STORED.components
    assert read.row_factor == pytest.approx([1.0, 0.5, 1.0, 1.0])
    parts = before.cash(selling_costs(WAS, before.rows))
    split = ("sold_worth", "sold_orders", "leftover_worth", "leftover_units", "cost_key", "fate", "packed")
    row = replace(before, **{name: getattr(before, name)[[1]] for name in split})
    lost = parts.mean() - read_draws(read, now, 1.0).cash.mean()
    assert lost == pytest.approx(0.5 * row.cash(selling_costs(WAS, row.rows)).mean(), abs=1)
    parts = read.components
    assert np.allclose(parts.minutes_sorting, before.minutes_sorting)  # dead units are sorted all the same
    assert (parts.minutes_packing < before.minutes_packing).all()


def test_missing_units_are_not_even_sorted() -> None:
    now = under({"lot": {"missing_share": 0.51, "dead_share": 0.0, "dead_untested_share": 0.0}}).settings
    read, before = reread(STORED, WAS, now).stored, STORED.components
    assert np.allclose(read.components.minutes_sorting, before.minutes_sorting * 0.49 / 0.98)
    assert read.row_factor == pytest.approx([0.49 / 0.95, 0.49 / 0.73, 0.49 / 0.95, 0.49 / 0.95])


@pytest.mark.parametrize(
    ("key", "component"),
    [
        ("minutes_first", "listing_first"),
        ("minutes_repeat", "listing_repeat"),
        ("minutes_used_unit", "listing_used"),
        ("minutes_sort", "minutes_sorting"),
        ("minutes_pack", "minutes_packing"),
    ],
)
def test_minutes_scale_their_own_kind_of_work(key: str, component: str) -> None:
    was = getattr(WAS.effort, key)
    read = reread(STORED, WAS, under({"effort": {key: 1.5 * was}}).settings)
    for name, array in STORED.components.arrays().items():
        factor = 1.5 if name == component else 1.0
        again = read.stored.components.arrays()[name]
        assert (again == array).all() if array.dtype == object else np.allclose(again, factor * array), name
    assert read.held[0].startswith(f"effort.{key}: keeps ")


def test_waiting_for_money_costs_what_its_yearly_price_says() -> None:
    """Without a cost of cash the discounted sums become the plain ones."""
    now = under({"goals": {"yearly_cost_of_cash": 0.0}}).settings
    read = reread(STORED, WAS, now)
    assert read.stored.components.sold_worth.sum(axis=0) == pytest.approx(STORED.components.gross_sold)
    assert read.stored.components.sold_orders.sum(axis=0) == pytest.approx(STORED.components.orders)
    left = read.stored.components.leftover_units / STORED.components.leftover_units
    assert left == pytest.approx(np.full(left.shape, 1.1 ** (182 / 365)))
    assert "when each line is listed and how soon it sells" in read.held[0]


def test_the_backlog_is_read_anew_and_the_time_path_kept() -> None:
    told = read({"backlog": {"hours_per_week": 3, "waiting_units": 50, "weekly_intake_units": 4}})
    assert len(told["held"]) == 3
    assert all("keeps when each line is listed" in one for one in told["held"])
    assert told["cash_proceeds"] == read()["cash_proceeds"]
    after, hours = told["backlog"]["after"], told["hours"]["listing"]["mean"]
    start, pace = 50 * 12 / 60, 4 * 12 / 60 - 3
    there = max(0.0, start + pace * 10 / 7)
    assert after["weeks_to_clear"] == pytest.approx(10 / 7 + (there + hours) / -pace, abs=1e-3)
    assert (after["units"], told["bid_ceiling"]["room"]["unsold_units"]) == (200.0, 200.0)


@pytest.mark.parametrize(
    ("document", "word"),
    [
        ({"never": {"words": ["broken"]}}, "never.words: not applied"),
        ({"lot": {"source": "somewhere"}}, "lot.source: not applied"),
        ({"lot": {"closes_at": "2026-07-09T10:00:00Z"}}, "lot.closes_at: not applied"),
        ({"selling": {"days_to_sell": 90}}, "selling.days_to_sell: not applied"),
        ({"selling": {"by_category": {"Garden": {"packing": 2}}}}, "kept apart under that category"),
    ],
)
def test_what_cannot_be_read_is_named_and_changes_nothing(document: dict[str, Any], word: str) -> None:
    told = read(document)
    assert [one for one in told["held"] if word in one], told["held"]
    assert told | {"held": []} == read()


def test_a_learned_pace_makes_the_declared_one_idle() -> None:
    learned = replace(STORED, pace_declared=False)
    told = read_again(learned, WAS, under({"selling": {"never_sells_share": 0.5}}).settings)
    assert told["held"] == ["selling.never_sells_share: no effect, because your history tells how soon goods sell."]


def test_costs_of_a_category_that_the_lot_does_not_hold_are_idle() -> None:
    was = under({"selling": {"by_category": {"Garden": {"packing": 1}}}}).settings
    now = under({"selling": {"by_category": {"Garden": {"packing": 4}}}}).settings
    told = read_again(STORED, was, now)
    key = 'selling.by_category."Garden".packing'
    assert told["held"] == [f"{key}: no effect, because no line of this lot counts under that category."]
    assert told | {"held": []} == read_again(STORED, was, was)


def test_nothing_grows_from_nothing() -> None:
    zero = {"effort": {"minutes_sort": 0}, "goals": {"yearly_cost_of_cash": 0}, "lot": {"missing_share": 1}}
    was = under(zero).settings
    read = reread(STORED, was, WAS)
    assert read.stored.components.minutes_sorting is STORED.components.minutes_sorting
    assert sum("nothing to scale" in one for one in read.held) == 3


def test_the_ceiling_alone_is_that_of_the_whole_reading() -> None:
    for document in ({}, {"goals": {"max_weeks_to_clear": 1}}, {"buying": {"freight": 5000}}):
        settings = under(document).settings
        assert read_ceiling(STORED, settings) == judge(STORED, settings).ceiling


def test_cash_by_week_is_told_only_where_it_still_holds() -> None:
    """Pay is no cash and minutes are none; another shade, other costs and another horizon move the weeks."""
    weekly = WeeklyCash(judge(STORED, WAS).shade, np.linspace(0, 900, 3)[:, None] * np.ones(512))
    stored = replace(STORED, weeks=weekly_table(weekly))

    def told(document: dict[str, Any]) -> dict[str, Any]:
        return read_again(stored, WAS, under(document).settings)

    still: list[dict[str, Any]] = [
        {}, {"buying": {"freight": 90}}, {"goals": {"hourly_pay": 5}}, {"effort": {"minutes_first": 3}},
        {"selling": {"days_to_sell": 60}},
    ]  # fmt: skip
    for document in still:
        assert "payback_weeks" in told(document)["at_ceiling"]
        assert WEEKS_LEFT_OUT not in told(document)["held"]
    moved: list[dict[str, Any]] = [
        {"buying": {"rivals": 9}}, {"selling": {"packing": 2}}, {"lot": {"missing_share": 0.03}},
        {"goals": {"horizon_weeks": 20}},
    ]  # fmt: skip
    for document in moved:
        assert "payback_weeks" not in told(document)["at_ceiling"]
        assert "cash_curve" not in told(document)
        assert WEEKS_LEFT_OUT in told(document)["held"]


@pytest.mark.parametrize("document", [{"buying": {"premium": 0.2}}, {"lot": {"current_bid": 100000}}])
def test_a_lot_of_any_length_is_read_again_within_50_ms_of_processor_time(document: dict[str, Any]) -> None:
    """What is read does not grow with the lines: 42 rows are seven categories in every state, singly and packed."""
    keys = ["", *"ABCDEF"]
    rows = Rows.of([(key, fate, packed) for key in keys for fate in (0, 1, 2) for packed in (False, True)])
    small = stored_lot(DRAWS).components
    split = ("sold_worth", "sold_orders", "leftover_worth", "leftover_units")
    wide = {name: np.resize(getattr(small, name), (len(rows), DRAWS)) for name in split}
    named = {"cost_key": rows.cost_key, "fate": rows.fate, "packed": rows.packed}
    stored, now = replace(STORED, components=replace(small, **named, **wide)), under(document).settings
    taken = []
    for _ in range(20):
        before = time.process_time()
        read_again(stored, WAS, now)
        taken.append(time.process_time() - before)
    assert sorted(taken)[18] < 0.05


def test_toys_are_toys() -> None:
    assert WAS.selling_for("Toys").fee_share == TOYS["selling"]["by_category"]["Toys"]["fee_share"]
