"""Settings a history can tell, and the ones it cannot."""

from dataclasses import replace

import numpy as np
import pytest
from tempo_world import START, days, sales_of

from models.estimate.fit.learned import hours_per_week, learned_settings, mean_unit_minutes
from models.values.given import read_given
from models.values.sales import Sales

UNTIL = START + np.timedelta64(400, "D")


def rows(n: int, **given: object) -> Sales:
    return sales_of(np.full(n, np.nan), np.full(n, np.nan), sold_price=np.full(n, 2000.0), **given)


def test_nothing_known_is_nothing_learned() -> None:
    assert learned_settings(rows(300), UNTIL, "USD") == {}
    assert learned_settings(sales_of([], []), UNTIL, "USD") == {}


def test_pace_is_the_median_week_times_the_mean_minutes() -> None:
    """61 listings a week at 13.77 minutes are 14 hours; a single week of 500 and empty weeks change nothing."""
    weeks = np.repeat(np.arange(30), 61)
    listed = 399.0 - 14.0 * weeks
    listed = listed[listed >= 0]
    many = np.concatenate([listed, np.full(500, 399.0)])
    sales = rows(len(many), listed_on=days(many), listing_minutes=np.full(len(many), 14 * 60 / 61))
    assert hours_per_week(sales, UNTIL) == pytest.approx(14.0, abs=0.01)
    assert learned_settings(sales, UNTIL, "USD")["backlog"] == {"hours_per_week": 14.0}


def test_pace_without_timings_takes_twelve_minutes() -> None:
    sales = rows(40, listed_on=days(np.repeat([390.0, 380, 370, 360], 10)))
    assert mean_unit_minutes(sales) is None
    assert hours_per_week(sales, UNTIL) == pytest.approx(2.0)


def test_three_weeks_are_too_few_for_a_pace() -> None:
    assert hours_per_week(rows(30, listed_on=days(np.repeat([390.0, 380, 370], 10))), UNTIL) is None


def test_a_file_with_a_few_listings_a_week_is_no_measure_of_the_hours() -> None:
    assert hours_per_week(rows(40, listed_on=days(np.repeat(np.arange(10) * 14.0, 4))), UNTIL) is None


def test_mean_minutes_of_a_unit_are_weighed_by_units() -> None:
    sales = rows(3, quantity=np.array([1, 3, 5]), listing_minutes=np.array([12.0, 4.0, np.nan]))
    assert mean_unit_minutes(sales) == pytest.approx(6.0)


def test_postage_is_paid_less_charged_where_both_stand() -> None:
    sales = rows(30, shipping_paid=np.full(30, 700.0), shipping_charged=np.where(np.arange(30) < 25, 580.0, np.nan))
    assert learned_settings(sales, UNTIL, "USD")["selling"] == {"postage_each": "1.20"}
    assert learned_settings(sales, UNTIL, "JPY")["selling"] == {"postage_each": "120"}
    few = replace(sales, shipping_paid=np.where(np.arange(30) < 15, 700.0, np.nan))
    assert learned_settings(few, UNTIL, "USD") == {}


def test_one_mistyped_amount_sets_no_cost() -> None:
    paid = np.where(np.arange(200) == 3, 700_000.0, 700.0)
    sales = rows(200, shipping_paid=paid, shipping_charged=np.full(200, 580.0))
    assert learned_settings(sales, UNTIL, "USD")["selling"] == {"postage_each": "1.20"}


def test_fees_are_a_share_after_the_fixed_fee() -> None:
    prices = np.linspace(500, 9000, 40)
    sales = replace(rows(40, fees=0.13 * prices + 30.0), sold_price=prices)
    assert learned_settings(sales, UNTIL, "USD")["selling"]["fee_share"] == pytest.approx(0.13, abs=0.002)
    other = replace(sales, fees=0.13 * prices)
    assert learned_settings(other, UNTIL, "EUR")["selling"]["fee_share"] == pytest.approx(0.13, abs=0.002)


def test_refunds_need_a_hundred_sales_and_a_column_in_use() -> None:
    refunded = np.where(np.arange(120) < 6, 2000.0, np.nan)
    assert learned_settings(rows(120, refunded=refunded), UNTIL, "USD")["selling"] == {"refund_share": 0.05}
    assert learned_settings(rows(99, refunded=refunded[:99]), UNTIL, "USD") == {}
    assert learned_settings(rows(120, refunded=np.zeros(120)), UNTIL, "USD") == {}


def test_unsold_and_later_rows_teach_no_cost() -> None:
    costs = {"shipping_paid": np.full(30, 700.0), "shipping_charged": np.full(30, 580.0)}
    assert learned_settings(sales_of(np.zeros(30), np.full(30, np.nan), **costs), UNTIL, "USD").get("selling") is None
    assert learned_settings(sales_of(np.zeros(30), np.full(30, 500.0), **costs), UNTIL, "USD").get("selling") is None


def test_what_is_learned_is_a_settings_document() -> None:
    n = 200
    sales = rows(
        n, listed_on=days(np.arange(n, dtype=float) * 2), fees=np.full(n, 300.0), shipping_paid=np.full(n, 400.0),
        shipping_charged=np.full(n, 900.0), refunded=np.where(np.arange(n) < 9, 100.0, np.nan),
    )  # fmt: skip
    learned = learned_settings(sales, UNTIL, "USD")
    assert read_given(learned) == learned
    assert learned["selling"]["postage_each"] == "-5.00"
