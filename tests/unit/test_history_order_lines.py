"""Lines of an order beside its goods: discounts are part of the prices, refunds are not, tips are no goods."""

import pytest

from models.intake.history import ReadHistory, read_history

HEADER = "Order,Item,Qty,Unit price,Sold on"
GOODS = ("O-1,Brass mug,1,20.00,2026-03-05", "O-1,Wool mat,2,15.00,2026-03-05", "O-2,Oak jug,1,40.00,2026-03-06")


def read(*rows: str, header: str = HEADER) -> ReadHistory:
    return read_history("\n".join([header, *GOODS, *rows]).encode(), "sold.csv", {}, "USD")


def prices(done: ReadHistory) -> dict[str, float]:
    assert done.problems.rows == done.problems.kept + done.problems.set_aside
    return dict(zip(done.sales.title.tolist(), done.sales.sold_price.tolist(), strict=True))


@pytest.mark.parametrize("words", ["Discount MARCH5", "Bundle coupon", "Rabatt", "Regular buyer"])
def test_a_line_below_zero_of_the_orders_own_day_is_a_discount(words: str) -> None:
    done = read(f"O-1,{words},1,-5.00,2026-03-05")
    assert prices(done) == {"Brass mug": 1800, "Wool mat": 1350, "Oak jug": 4000}
    assert [item.reason for item in done.problems.items] == ["a discount: taken off the prices of its order"]
    assert not (done.sales.refunded > 0).any()


def test_a_line_called_a_discount_is_one_above_zero_too() -> None:
    assert prices(read("O-1,Discount,1,5.00,2026-03-05"))["Brass mug"] == 1800


@pytest.mark.parametrize(
    "row",
    [
        "O-1,Partial refund,1,-5.00,2026-03-05",
        "O-1,Regular buyer,1,-5.00,2026-04-05",
        "O-1,Brass mug,1,-5.00,2026-03-05",
    ],
)
def test_what_is_paid_back_is_no_discount(row: str) -> None:
    done = read(row)
    assert prices(done) == {"Brass mug": 2000, "Wool mat": 1500, "Oak jug": 4000}
    assert (done.sales.refunded > 0).any()


@pytest.mark.parametrize("words", ["Tip", "Gift wrap", "Standard shipping", "Postage & packing", "P&P"])
def test_money_beside_the_goods_is_set_aside(words: str) -> None:
    done = read(f"O-1,{words},1,2.00,2026-03-05")
    assert len(prices(done)) == 3
    assert [item.reason for item in done.problems.items] == ["money beside the goods of an order"]


def test_goods_called_so_alone_or_with_a_key_are_goods() -> None:
    assert "Gift wrap" in prices(read("O-3,Gift wrap,1,2.00,2026-03-05"))
    header = "Order,Item,Qty,Unit price,Sold on,SKU"
    assert "Gift wrap" in prices(read("O-1,Gift wrap,1,2.00,2026-03-05,G-1", header=header))
