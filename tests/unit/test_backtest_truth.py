"""On invented shops whose truth is known the backtest says what is so: when ranges hold, and when they cannot."""

import json
from dataclasses import replace

import numpy as np
import pytest
from backtest_shop import FAR, history, middle_day, quiet, shop, walked

from models.appraisal.backtest.walk import Asked, walk
from models.bench.worlds.pace_world import PaceWorld
from models.bench.worlds.paces import PaceShape
from models.values.arrays import texts
from models.values.sales import Sales
from models.values.streams import stream

SHAPE = {"n_sales": 800, "lots_named": False}


def held(found: dict, stated: float) -> tuple[int, int]:  # type: ignore[type-arg]
    one = next(one for one in found["coverage"] if one["stated"] == stated)
    return round(one["happened"] * one["lots"]), one["lots"]


def test_ranges_hold_as_stated_where_the_world_is_as_assumed() -> None:
    found = [walked(shop(seed, **SHAPE), 6) for seed in (1, 2)]
    for stated, low, high in ((0.5, 0.40, 0.68), (0.8, 0.70, 0.92), (0.95, 0.86, 1.0)):
        counts = [held(one, stated) for one in found]
        share = sum(inside for inside, _ in counts) / sum(lots for _, lots in counts)
        assert low < share < high, (stated, share)
    assert [one["goods"] for one in found] == ["bulk", "bulk"]
    for one in found:
        assert 0.8 < one["money"]["ratio"] < 1.2, "within three sds of lots that share a market"
        for other in one["baselines"]:
            less_off = one["lot_error"]["mean"] - other["lot_error"]["mean"]
            assert other["nearer"]["by"] == pytest.approx(less_off, abs=2e-4)
        assert one["ln_price_rmse"] < min(other["ln_price_rmse"] for other in one["baselines"])


def test_a_jump_that_nobody_could_foresee_shows_as_what_it_is() -> None:
    """Prices double from one day on: for lots asked about just before, twice as much came in."""
    sales = shop(1, **SHAPE)
    day = middle_day(sales, 0.8)
    jumped = replace(sales, sold_price=np.where(sales.sold_on > day, sales.sold_price * 2, sales.sold_price))
    plain, found = walked(sales, 6), walked(jumped, 6)
    money = {one["day"]: one["money"] for one in plain["cut_offs"] if one["lots"]}
    before = {one["day"]: one["money"] for one in found["cut_offs"] if one["lots"] and one["day"] <= str(day)}
    assert len(before) > 3
    assert {of: one["told"] for of, one in before.items()} == {of: money[of]["told"] for of in before}
    last = max(before)
    assert before[last]["ratio"] < 0.75 * money[last]["ratio"]
    assert found["coverage"][1]["happened"] < plain["coverage"][1]["happened"]


def test_the_same_history_gives_the_same_figures_in_any_order() -> None:
    sales = shop(2, 300)
    mixed = sales.take(stream(1, "order").permutation(len(sales)))
    assert json.dumps(walked(sales, 4)) == json.dumps(walked(mixed, 4))


def test_amounts_of_another_currency_have_its_digits() -> None:
    found = in_currency(shop(2, 300), "JPY")
    assert found["currency"] == "JPY"
    assert "." not in found["money"]["told"] + found["lots"][0]["p10"]


def in_currency(sales: Sales, currency: str) -> dict:  # type: ignore[type-arg]
    from models.appraisal.backtest.walk import backtest

    return backtest(sales, Asked(FAR, currency, most_cut_offs=3), quiet)


def test_single_finds_are_tested_apart_and_without_a_lots_shock() -> None:
    sales = shop(1, **SHAPE)
    found = walked(sales, 6)
    other = found["other_goods"]
    assert other["goods"] == "not_bulk"
    assert other["tested"]["sales"] + found["tested"]["sales"] < int(sales.sold.sum())
    whole = walk(history(sales), Asked(FAR, "USD", most_cut_offs=2), quiet)
    sds = {goods: np.mean([lot.log_sd for lot in whole.lots if lot.goods == goods]) for goods in ("bulk", "single")}
    assert sds["single"] < sds["bulk"]


def test_untested_goods_are_asked_about_as_what_they_were_sold_as() -> None:
    """A quarter of the goods is sold untested at half the price: pricing it as working would be far too high."""
    sales = shop(1, **SHAPE)
    untested = stream(5, "untested").random(len(sales)) < 0.25
    found = walked(
        replace(
            sales,
            condition=np.where(untested, 4, sales.condition).astype(np.int8),
            sold_price=np.where(untested, sales.sold_price * 0.5, sales.sold_price),
        ),
        6,
    )
    assert 0.8 < found["money"]["ratio"] < 1.2


def test_how_soon_things_sell_is_near_where_every_product_has_its_own_buyers() -> None:
    sales = PaceWorld(PaceShape(3, 1500)).history()
    found = walked(sales, 6)["time"]
    for one in found["within"]:
        assert abs(one["told"] - one["happened"]) < 0.1


def test_sold_listings_alone_are_no_test_of_time() -> None:
    """On them the days before would look quick and be judged on what sold in the end: a pace that is not in use."""
    whole = PaceWorld(PaceShape(3, 1500)).history()
    found = walked(whole.take(whole.sold), 6)
    assert found["enough"]
    assert found["time"] is None
    assert found["time_why"].startswith("Your history holds sold listings only: what did not sell is missing")
    assert all(one.get("time") is None for one in found["cut_offs"])
    three = np.flatnonzero(~whole.sold)[:3]
    kept = walked(whole.take(np.sort(np.concatenate([np.flatnonzero(whole.sold), three]))), 6)
    assert kept["time"] is None
    assert "only 3 unsold units" in kept["time_why"]
    assert walked(whole, 6)["time_why"] is None


def test_listings_too_young_to_tell_are_not_counted_as_unsold() -> None:
    """Everything sells on its twentieth day, so all that is old enough has sold by the thirtieth."""
    sales = shop(1, **SHAPE)
    sure = replace(sales, sold_on=sales.listed_on + 20, sold_price=np.where(sales.sold, sales.sold_price, 900.0))
    end = middle_day(sales, 0.9)
    known = sure.take(sure.listed_on <= end)
    waiting = known.sold_on > end
    blank = np.datetime64("NaT", "D")
    known = replace(
        known,
        sold_on=np.where(waiting, blank, known.sold_on),
        sold_price=np.where(waiting, np.nan, known.sold_price),
    )
    found = walked(known, 4)["time"]
    assert int(waiting.sum()) > 10
    assert [one["happened"] for one in found["within"]] == [1.0, 1.0]
    assert found["half_sold_days"]["happened"] == 20.0


def test_late_sales_that_bring_less_are_found_by_how_much() -> None:
    """Every month that a listing waits takes 10% off its price."""
    sales = shop(1, **SHAPE)
    months = (sales.sold_on - sales.listed_on).astype(float) / 30
    falling = replace(
        sales, sold_price=np.where(sales.sold, sales.sold_price * 0.9 ** np.where(sales.sold, months, 0), np.nan)
    )
    plain, found = (walked(one, 6)["time"]["later_sales"] for one in (sales, falling))
    assert plain["low"] < 0 < plain["high"]
    assert found["low"] < -0.1 < found["high"] < 0


@pytest.mark.parametrize(
    ("sales", "why"),
    [
        (Sales.blank(0), "0 sales say when they sold"),
        (Sales.blank(500), "0 sales say when they sold"),
        (replace(Sales.blank(500), sold_price=np.full(500, 900.0)), "0 sales say when they sold"),
        (shop(3, 50), "50 sales say when they sold; with fewer than 60"),
        (
            replace(
                Sales.blank(90), title=texts(["mug"] * 90), sold_price=np.full(90, 900.0),
                sold_on=np.full(90, np.datetime64("2026-05-01")),
            ),
            "no lot or fortnight of listings can be judged",
        ),
        (
            replace(
                Sales.blank(200), title=texts(["mug"] * 200), sold_price=np.zeros(200),
                sold_on=np.datetime64("2026-01-01") + np.arange(200),
            ),
            "0 sales say when they sold",
        ),
    ],
)  # fmt: skip
def test_too_little_is_said_and_nothing_else(sales: Sales, why: str) -> None:
    found = walked(sales)
    assert found["enough"] is False
    assert why in found["why"]
    assert set(found) == {"as_of", "known_until", "currency", "sales", "enough", "why"}


def test_rows_without_the_days_they_need_are_left_out_and_counted() -> None:
    sales = shop(2, 300)
    undated = np.arange(len(sales)) % 3 == 0
    blank = np.datetime64("NaT", "D")
    found = walked(replace(sales, sold_on=np.where(undated, blank, sales.sold_on)), 3)
    assert found["sales"]["undated"] == int((undated & sales.sold).sum())
    assert found["sales"]["dated"] == int((~undated & sales.sold).sum())


def test_without_days_of_listing_prices_are_tested_and_time_is_not() -> None:
    sales = shop(2, 300)
    sold = sales.take(sales.sold)
    found = walked(replace(sold, listed_on=np.full(len(sold), np.datetime64("NaT", "D"))), 3)
    assert found["enough"]
    assert found["time"] is None
    assert found["minutes"] is None
    assert all(one["time"] is None for one in found["cut_offs"] if one["lots"])
