"""Fees, postage and refunds of a shop and of its categories, from histories whose true costs are known."""

from dataclasses import replace

import numpy as np
import pytest

from models.estimate.fit.learned_costs import MOST_CATEGORIES, learned_costs
from models.estimate.fit.learned_fees import fee_rule
from models.values.arrays import texts
from models.values.given import read_given
from models.values.sales import Sales
from models.values.streams import stream

CATEGORIES = ("Home > Lamps", "Toys", "Garden > Tools", "Audio")


def shop(
    n: int = 2000, *, share: float = 0.125, on_postage: bool = True, weight: tuple[float, ...] = (1.0, 1.0, 1.0, 1.0)
) -> Sales:
    """Sales whose fees are a share plus 30, whose postage grows with what the category's goods weigh."""
    rng = stream(7, "shop", "")
    kind = rng.integers(len(CATEGORIES), size=n)
    price = np.round(np.exp(rng.normal(8.0, 0.6, n)))
    charged = rng.choice([0.0, 495.0, 795.0], n)
    fees = np.round(share * (price + (charged if on_postage else 0.0)) + 30.0)
    paid = np.round(500.0 * np.array(weight)[kind] * np.exp(rng.normal(0, 0.1, n)))
    return replace(
        Sales.blank(n), sold_price=price, category=texts([CATEGORIES[one] for one in kind]), fees=fees,
        shipping_charged=charged, shipping_paid=paid,
    )  # fmt: skip


@pytest.mark.parametrize("on_postage", [True, False])
@pytest.mark.parametrize("share", [0.0, 0.08, 0.125, 0.2])
def test_the_share_is_told_whatever_fees_are_taken_on(share: float, on_postage: bool) -> None:
    rule = fee_rule(shop(share=share, on_postage=on_postage), "USD")
    assert rule is not None
    assert rule.share == pytest.approx(share, abs=0.0005)
    assert rule.fixed == pytest.approx(30.0, abs=2.0)
    assert share == 0 or rule.on_postage is on_postage


def test_fees_of_an_average_sale_come_out_right() -> None:
    sales = shop()
    learned = learned_costs(sales, "USD")
    told = learned["fee_share"] * sales.sold_price + 100 * float(learned["fixed_fee"])
    assert told.mean() == pytest.approx(sales.fees.mean(), abs=1.0)
    assert float(learned["fixed_fee"]) == pytest.approx(0.30 + 0.125 * sales.shipping_charged.mean() / 100, abs=0.02)


def test_a_row_of_several_units_pays_its_fixed_fee_once() -> None:
    sales = shop()
    units = np.where(np.arange(len(sales)) % 2 == 0, 3, 1)
    once = 0.125 * (sales.sold_price + sales.shipping_charged) + 30.0 / units
    learned = learned_costs(replace(sales, quantity=units, fees=once), "USD")
    assert learned["fee_share"] == pytest.approx(0.125, abs=0.0002)


def test_wrong_cells_do_not_move_the_share() -> None:
    sales = shop()
    rng = stream(3, "slips", "")
    slips = np.where(rng.random(len(sales)) < 0.02, rng.choice([0.1, 10.0, 100.0], len(sales)), 1.0)
    learned, plain = (learned_costs(one, "USD") for one in (replace(sales, fees=sales.fees * slips), sales))
    assert learned["fee_share"] == pytest.approx(0.125, abs=0.0015)
    assert float(learned["fixed_fee"]) == pytest.approx(float(plain["fixed_fee"]), abs=0.15)


def test_one_price_leaves_the_usual_fixed_fee() -> None:
    sales = replace(Sales.blank(30), sold_price=np.full(30, 2000.0), fees=np.full(30, 270.0))
    assert learned_costs(sales, "USD") == {"fee_share": 0.12, "fixed_fee": "0.30"}
    assert learned_costs(sales, "EUR") == {"fee_share": 0.135, "fixed_fee": "0.00"}
    assert learned_costs(sales.take(np.arange(19)), "USD") == {}


def test_equal_categories_are_not_told_apart() -> None:
    assert "by_category" not in learned_costs(shop(), "USD")


def test_heavy_goods_have_postage_of_their_own_under_their_top() -> None:
    sales = shop(weight=(1.0, 1.0, 4.0, 1.0))
    learned = learned_costs(sales, "USD")
    heavy = sales.category == "Garden > Tools"
    true = float((sales.shipping_paid - sales.shipping_charged)[heavy].mean()) / 100
    assert set(learned["by_category"]["Garden"]) == {"postage_each"}
    assert float(learned["by_category"]["Garden"]["postage_each"]) == pytest.approx(true, abs=0.15)
    assert read_given({"selling": learned}) == {"selling": learned}


def test_goods_without_postage_of_their_own_do_not_pay_for_heavy_ones() -> None:
    """25 heavy sales of 1,500 move the mean by less than is worth telling of the others, yet by 20 cents."""
    sales = shop(weight=(1.0, 1.0, 4.0, 1.0))
    heavy = np.flatnonzero(sales.category == "Garden > Tools")
    sales = sales.take(np.setdiff1d(np.arange(len(sales)), heavy[25:]))
    sales = replace(sales, shipping_charged=np.full(len(sales), 495.0))
    less, rest = (sales.shipping_paid - sales.shipping_charged) / 100, sales.category != "Garden > Tools"
    learned = learned_costs(sales, "USD")
    assert list(learned["by_category"]) == ["Garden"]
    assert float(learned["postage_each"]) == pytest.approx(float(less[rest].mean()), abs=0.02)
    assert float(less.mean()) - float(learned["postage_each"]) > 0.15


def test_where_too_few_others_are_left_the_whole_shops_cost_stays() -> None:
    sales = shop(weight=(1.0, 1.0, 4.0, 1.0))
    less = (sales.shipping_paid - sales.shipping_charged) / 100
    learned = learned_costs(sales, "USD")
    assert set(learned["by_category"]) == {"Home", "Toys", "Garden", "Audio"}
    assert float(learned["postage_each"]) == pytest.approx(float(less.mean()), abs=0.05)


def test_a_category_of_its_own_fee_has_it() -> None:
    sales = shop()
    dear = sales.category == "Audio"
    fees = np.where(dear, np.round(0.08 * (sales.sold_price + sales.shipping_charged) + 30), sales.fees)
    learned = learned_costs(replace(sales, fees=fees), "USD")
    assert learned["by_category"]["Audio"]["fee_share"] == pytest.approx(0.08, abs=0.002)


def test_nineteen_sales_tell_nothing_of_a_category() -> None:
    sales = shop(weight=(1.0, 1.0, 4.0, 1.0))
    heavy = np.flatnonzero(sales.category == "Garden > Tools")
    few = np.setdiff1d(np.arange(len(sales)), heavy[19:])
    assert "Garden" not in learned_costs(sales.take(few), "USD").get("by_category", {})
    enough = np.setdiff1d(np.arange(len(sales)), heavy[20:])
    assert "Garden" in learned_costs(sales.take(enough), "USD")["by_category"]


@pytest.mark.parametrize(("sales_of_it", "refunded"), [(30, 6), (600, 120)])
def test_few_refunds_say_little_of_a_category_many_much(sales_of_it: int, refunded: int) -> None:
    """A fifth refunded beside a twentieth everywhere else: with 30 sales chance, with 600 a fact."""
    n = sales_of_it + 3000
    category = texts(["Audio"] * sales_of_it + [CATEGORIES[at % 3] for at in range(3000)])
    back = (np.arange(n) < refunded) | ((np.arange(n) >= sales_of_it) & (np.arange(n) % 20 == 0))
    price = np.full(n, 2000.0)
    sales = replace(Sales.blank(n), sold_price=price, category=category, refunded=np.where(back, 500.0, np.nan))
    learned = learned_costs(sales, "USD")
    assert learned["refund_share"] == pytest.approx(back.mean(), abs=1e-4)
    own = learned.get("by_category", {}).get("Audio", {}).get("refund_share")
    assert own is None if sales_of_it == 30 else 0.15 < own < 0.2


def test_a_category_is_named_as_it_is_mostly_spelled() -> None:
    sales = shop(weight=(1.0, 1.0, 4.0, 1.0))
    spelled = [
        text.replace("Garden", "GARDEN ") if at % 3 == 0 else text for at, text in enumerate(sales.category.tolist())
    ]
    assert "Garden" in learned_costs(replace(sales, category=texts(spelled)), "USD")["by_category"]


def test_only_the_categories_that_matter_most_are_told_apart() -> None:
    n = 3000
    kind = np.arange(n) % 12
    paid = 500.0 + 100.0 * kind
    sales = replace(
        Sales.blank(n), sold_price=np.full(n, 2000.0), category=texts([f"Kind {at}" for at in kind]),
        shipping_paid=paid, shipping_charged=np.zeros(n),
    )  # fmt: skip
    told = learned_costs(sales, "USD")
    ends = [f"Kind {at}" for at in (0, 1, 10, 11, 2, 3, 8, 9)]
    assert (float(told["postage_each"]), list(told["by_category"])) == (10.5, ends)
    assert len(ends) == MOST_CATEGORIES
