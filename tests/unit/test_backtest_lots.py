"""What counts as one lot of the seller's own, on which day it is asked about, and what the simple ways say of it."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from backtest_shop import FAR, history, shop

from models.appraisal.backtest.baselines import medians, share_of_tag
from models.appraisal.backtest.cut_offs import affordable, cut_off_days
from models.appraisal.backtest.dated import dated
from models.appraisal.backtest.own_lots import FEWEST_ROWS, Goods, own_lots
from models.values.arrays import texts
from models.values.sales import Sales

DAY = np.datetime64("2026-01-01")
CUT_OFF = np.datetime64("2026-01-10")


def rows(days: list[int], **columns: Any) -> Sales:
    """Listings begun so many days after DAY, each sold twenty days later."""
    n = len(days)
    listed = DAY + np.array(days)
    plain = {"title": texts([f"thing {number}" for number in range(n)]), "sold_price": np.full(n, 1000.0)}
    return replace(Sales.blank(n), **{**plain, "listed_on": listed, "sold_on": listed + 20, **columns})


def lots_at(sales: Sales, *days: np.datetime64) -> list[list[tuple[str, int]]]:
    found = own_lots(history(sales), np.array(days))
    return [[(lot.goods.value, len(lot.rows)) for lot in of_day] for of_day in found]


def test_a_named_lot_is_asked_about_whole_before_its_first_listing() -> None:
    sales = rows([12, 13, 30, 40, 41, 42], lot=texts(["Pallet 7", "pallet 7 ", *["Pallet 7"] * 4]))
    assert lots_at(sales, CUT_OFF, CUT_OFF + 14) == [[("bulk", 6)], []]


def test_a_lot_that_was_begun_on_the_day_is_not_asked_about() -> None:
    sales = rows([9, 12, 13, 14, 15, 16], lot=texts(["Pallet 7"] * 6))
    assert lots_at(sales, CUT_OFF) == [[]]


def test_a_name_used_for_years_is_no_lot() -> None:
    sales = rows([*range(10, 20), *range(450, 460)], lot=texts(["the warehouse"] * 20))
    found = own_lots(history(sales), np.array([CUT_OFF, CUT_OFF + 440]))
    assert [[(lot.is_named, len(lot.rows)) for lot in of_day] for of_day in found] == [[(False, 10)], [(False, 10)]]


def test_the_rest_goes_by_fortnight_way_in_and_top_category() -> None:
    kinds = ["Toys > Dolls", "Toys > Cars"] * 3 + ["Garden"] * 6
    sourced = np.array([1] * 6 + [0] * 6, dtype=np.int8)
    sales = rows([10] * 12, category=texts(kinds), sourced=sourced)
    assert sorted(lots_at(sales, CUT_OFF)[0]) == [("bulk", 6), ("single", 6)]
    later = rows([10] * 6 + [24] * 6, category=texts(["Toys"] * 12))
    assert lots_at(later, CUT_OFF)[0] == [("unknown", 6), ("unknown", 6)]


def test_what_is_too_little_joins_its_fortnight_then_everything_of_its_day() -> None:
    sales = rows([10, 10, 10, 11, 11, 11], category=texts(["Toys", "Garden", "Tools"] * 2))
    assert lots_at(sales, CUT_OFF)[0] == [("unknown", 6)]
    assert lots_at(rows([10, 25, 40, 55, 70]), CUT_OFF)[0] == [("unknown", FEWEST_ROWS)]
    assert lots_at(rows([10, 25, 40, 55]), CUT_OFF)[0] == []


def test_the_rest_of_a_fortnight_is_not_called_all_kinds() -> None:
    def names(categories: list[str]) -> list[str]:
        sales = rows([11] * len(categories), category=texts(categories))
        return [lot.name.split(",")[0] for lot in own_lots(history(sales), np.array([CUT_OFF]))[0]]

    few = ["Garden", "Tools", "Books", "Lamps", "Hats"]
    assert names(few) == ["all kinds"]
    assert names([*few, *["Toys"] * 6]) == ["toys", "other kinds"]
    assert names([""] * 6) == ["no category"]


def test_every_row_is_in_one_lot_at_most_and_asked_about_before_it_was_listed() -> None:
    past = history(shop(1, 800, lots_named=True))
    days = cut_off_days(past, 10)
    seen: set[int] = set()
    for day, lots in zip(days, own_lots(past, days), strict=True):
        for lot in lots:
            assert (past.start[lot.rows] > day).all(), lot.name
            assert seen.isdisjoint(lot.rows.tolist())
            seen |= set(lot.rows.tolist())
    listed_after = int((past.start > days[0]).sum())
    assert 0.8 * listed_after < len(seen) <= listed_after


def test_days_begin_once_enough_is_known_and_are_a_fortnight_apart_at_least() -> None:
    past = history(shop(1, 800))
    for most in (1, 5, 500):
        days = cut_off_days(past, most)
        assert 1 <= len(days) <= most
        known = int((past.sales.sold_on[past.sold] <= days[0]).sum())
        assert known >= 200
        assert (np.diff(days).astype(int) >= 14).all()
        assert days[-1] < past.end
    assert len(cut_off_days(history(shop(1, 50)), 10)) == 0
    assert (affordable(1000), affordable(100_000), affordable(10_000_000)) == (400, 4, 4)


def test_a_listing_after_its_own_sale_is_taken_for_a_mistyped_day() -> None:
    past = dated(rows([10, 12], sold_on=DAY + np.array([5, 40])), FAR)
    assert past.is_listed.tolist() == [False, True]
    assert past.start.astype(str).tolist() == ["2026-01-06", "2026-01-13"]


def priced(tag: list[float], price: list[float], **columns: Any) -> Sales:
    return rows([0] * len(tag), tag_each=np.array(tag), sold_price=np.array(price), **columns)


def test_a_share_of_the_tag_is_learned_apart_for_bulk_goods_and_finds() -> None:
    bulk, single = [(4000.0, 1200.0)] * 30, [(4000.0, 2400.0)] * 30
    sourced = np.array([1] * 30 + [0] * 30, dtype=np.int8)
    sold = priced([tag for tag, _ in bulk + single], [price for _, price in bulk + single], sourced=sourced)
    asked = priced([10_000.0, 10_000.0, np.nan], [1.0] * 3, sourced=np.array([1, 0, 1], dtype=np.int8))
    told = share_of_tag(sold, CUT_OFF, "USD")(asked)
    assert np.exp(told.ln_price).round().tolist() == [3000, 6000, 1697]  # without a tag: the middle of all prices
    assert told.factor == pytest.approx(1.0)


def test_medians_fall_back_from_brand_to_category_to_everything() -> None:
    category = texts(["Toys"] * 6 + ["Garden"] * 3)
    brand = texts(["Olm"] * 3 + ["Zant"] * 3 + ["Olm"] * 3)
    sold = priced([np.nan] * 9, [100.0] * 3 + [400.0] * 3 + [900.0] * 3, category=category, brand=brand)
    asked = priced(
        [np.nan] * 4, [1.0] * 4,
        category=texts(["Toys", "Toys", "Garden", "Books"]), brand=texts(["olm", "nobody", "Zant", "Olm"]),
    )  # fmt: skip
    told = medians(sold, CUT_OFF, "USD")(asked)
    assert np.exp(told.ln_price).round().tolist() == [100, 200, 900, 400]


def test_the_factor_makes_a_median_worth_money() -> None:
    sold = priced([np.nan] * 3, [100.0, 100.0, 800.0])
    assert medians(sold, CUT_OFF, "USD")(sold).factor == pytest.approx((1 + 1 + np.exp(2.0)) / 3), "outliers are cut"


def test_how_goods_came_in_is_told_by_the_row_before_the_lots_name() -> None:
    sales = rows([10] * 5, lot=texts(["Find of the day"] * 5), sourced=np.zeros(5, dtype=np.int8))
    assert own_lots(history(sales), np.array([CUT_OFF]))[0][0].goods is Goods.SINGLE
