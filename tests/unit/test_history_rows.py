"""Rows of sold histories as exports have them: orders of several goods, refunds, listings of several units."""

import pytest

from models.intake.history import ReadHistory, read_history
from models.values.errors import NeedsColumns
from models.values.sale_parts import REFUND


def read(text: str, currency: str = "USD", **mapping: str) -> ReadHistory:
    return read_history(text.strip().encode(), "sales.csv", mapping, currency)


def reasons(done: ReadHistory) -> list[tuple[int, str]]:
    return [(item.row, item.reason) for item in done.problems.items]


def counted(done: ReadHistory) -> tuple[int, int, int]:
    assert done.problems.rows == done.problems.kept + done.problems.set_aside
    return done.problems.rows, done.problems.kept, done.problems.set_aside


def test_an_items_own_price_is_taken_before_the_orders_total() -> None:
    done = read("""
Order number,Item title,Price,Order total,Sold date
O1,Mug,8,60,2026-05-01
O1,Lamp,52,60,2026-05-01
""")
    assert done.sales.sold_price.tolist() == [800, 5200]


def test_an_orders_total_on_each_row_is_shared_out_by_what_was_asked() -> None:
    done = read(
        """
Order number,Item title,Order total,Asking price,Sold date
O1,Mug,60,10,2026-05-01
O1,Lamp,60,40,2026-05-01
O1,Jug,60,10,2026-05-01
O2,Pot,9,9,2026-05-02
""",
        sold_price="Order total",
    )
    assert done.sales.sold_price.tolist() == [1000, 4000, 1000, 900]
    assert [row for row, _ in reasons(done)] == [2, 3, 4]


def test_an_orders_total_above_blanks() -> None:
    done = read("""
Order number,Item title,Sold for,Sold date
O1,Mug,60,2026-05-01
O1,Lamp,,2026-05-01
O3,Cup,10,2026-05-02
O3,Cup,,2026-05-02
""")
    assert done.sales.title.tolist() == ["Cup", "Cup"]
    assert done.sales.sold_price.tolist() == [500, 500]
    assert counted(done) == (4, 2, 2)


def test_an_order_that_is_written_once_above_its_goods() -> None:
    done = read(
        """
Order number,Item title,RRP,Order total,Sold date
O1,Mug,10,60,2026-05-01
,Lamp,40,,
,Jug,10,,
O2,Pot,9,9,2026-05-02
""",
        sold_price="Order total",
    )
    assert done.sales.sold_price.tolist() == [1000, 4000, 1000, 900]
    assert done.sales.order_ref.tolist() == ["O1", "O1", "O1", "O2"]
    assert done.sales.sold_on.astype(str).tolist() == [*["2026-05-01"] * 3, "2026-05-02"]
    ours = read("order_ref,title,sold_price,sold_on\nO1,Mug,60,2026-05-01\n,Lamp,,\n")
    assert ours.sales.sold.tolist() == [True, False]


def test_priced_goods_below_an_order_are_of_it_and_others_are_not() -> None:
    head = "Order number,Item title,Sold for,Sold date\nO1,Mug,8,2026-05-01\n"
    done = read(head + ",Jug,9,\n,Lamp,7,2026-05-03\n,Pot,-4,\n")
    assert done.sales.order_ref.tolist()[:3] == ["O1", "O1", ""]
    assert done.sales.sold_on.astype(str).tolist()[:3] == ["2026-05-01", "2026-05-01", "2026-05-03"]
    assert [row for row, reason in reasons(done) if "goods of the order above" in reason] == [3]
    undated = read("Order number,Item title,Sold for\nO1,Mug,8\n,Jug,9\n")
    assert undated.sales.order_ref.tolist() == ["O1", ""]


def test_one_price_on_different_goods_of_many_orders_is_a_total_and_in_one_it_is_not_known_to_be() -> None:
    head = "Order number,Item title,Sold for,Tag,Sold date\n"
    orders = "".join(f"O{n},Mug {n},{n + 20},10,2026-05-01\nO{n},Lamp {n},{n + 20},30,2026-05-01\n" for n in range(3))
    assert read(head + orders).sales.sold_price.tolist() == [500, 1500, 525, 1575, 550, 1650]
    one = read(head + "O1,Mug,8,10,2026-05-01\nO1,Bowl,8,10,2026-05-01\n")
    assert one.sales.sold_price.tolist() == [800, 800]
    assert {reason for _, reason in reasons(one)} == {"the same price on different goods of one order"}


def test_whether_a_total_is_of_a_row_is_asked() -> None:
    text = "Order number,Title,Item total,Qty,Sold date\nO1,Mug,16.00,2,2026-05-01\n"
    with pytest.raises(NeedsColumns) as asked:
        read(text, sold_price="Item total")
    assert asked.value.missing == ("sold_price_is",)
    assert read(text, sold_price="Item total", sold_price_is="row").sales.sold_price.tolist() == [800]
    assert read(text.replace(",2,", ",1,"), sold_price="Item total").sales.sold_price.tolist() == [1600]


def test_prices_of_several_units_above_what_one_was_asked_for_are_asked_about() -> None:
    rows = "".join(f"Mug {n},{9 * n},10,{n},2026-05-0{n}\n" for n in range(2, 6))
    with pytest.raises(NeedsColumns) as asked:
        read("Title,Sold price,Asking price,Qty,Sold date\n" + rows)
    assert asked.value.missing == ("sold_price_is",)


def test_postage_and_tax_inside_the_price() -> None:
    text = "Order number,Title,Total paid incl. shipping and tax,{},Sold date\nO1,Mug,16.00,{},2026-05-01\n"
    both = read(text.format("Postage charged,Sales tax", "4.00,2.00"), sold_price="Total paid incl. shipping and tax")
    assert both.sales.sold_price.tolist() == [1000]
    tax = read("Title,Sold price (incl. VAT),Qty,VAT,Sold date\nMug,8.80,2,1.60,2026-05-01\n")
    assert tax.sales.sold_price.tolist() == [800]
    untold = read("Title,Sold price (incl. VAT),Sold date\nMug,8.80,2026-05-01\n")
    assert untold.sales.sold_price.tolist() == [880]
    assert sum("inside" in caution.what for caution in untold.cautions) == 1
    none = read(text.format("Place", "here"), sold_price="Total paid incl. shipping and tax")
    assert none.sales.sold_price.tolist() == [1600]
    assert [caution.what for caution in none.cautions if "inside" in caution.what]


def test_refunds_in_rows_of_their_own_join_their_sale() -> None:
    done = read("""
Order ID,Type,Item,Qty,Sold price,Date sold
O1,Order,Mug,1,8.00,2026-05-01
O2,Order,Lamp,2,20.00,2026-05-02
O1,Refund,Mug,-1,-8.00,2026-08-01
O2,Refund,Lamp,-1,-4.00,2026-08-01
O9,Refund,Gone,-1,-5.00,2026-08-02
,Payout,,,-100,2026-08-03
""")
    assert done.sales.sold_price.tolist() == [800, 2000]
    assert done.sales.refunded.tolist() == [800, 200]  # a unit
    assert done.part.role.tolist()[2:] == [REFUND] * 3
    assert counted(done) == (6, 5, 1)
    assert any("belong to no sale" in caution.what for caution in done.cautions)


def test_a_negative_row_without_a_reference_needs_the_very_sale() -> None:
    done = read("""
Item,Sold price,Date sold
Lamp,20.00,2026-05-01
Lamp,-20.00,2026-06-01
Jug,-7.00,2026-06-01
""")
    assert done.sales.refunded.tolist() == [2000]
    assert (4, "the sold price is below zero") in reasons(done)
