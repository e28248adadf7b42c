"""Settings a history can tell, and the ones it cannot."""

from dataclasses import replace

import numpy as np
import pytest
from tempo_world import START, days, sales_of

from models.estimate.fit.effort import fit_effort
from models.estimate.fit.learned import learned_settings
from models.estimate.pace import measured_pace
from models.values.given import read_given
from models.values.sales import Sales

UNTIL = START + np.timedelta64(400, "D")


def rows(n: int, **given: object) -> Sales:
    return sales_of(np.full(n, np.nan), np.full(n, np.nan), sold_price=np.full(n, 2000.0), **given)


def test_nothing_known_is_nothing_learned() -> None:
    assert learned_settings(rows(300), UNTIL, "USD") == {}
    assert learned_settings(sales_of([], []), UNTIL, "USD") == {}


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
    learned = learned_settings(sales, UNTIL, "USD", measured_pace(sales, UNTIL, fit_effort(sales, np.arange(n))))
    assert read_given(learned) == learned
    assert learned["selling"]["postage_each"] == "-5.00"
