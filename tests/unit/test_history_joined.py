"""Orders, live listings, ended listings and fees meet in one table, the same whatever comes twice."""

import itertools

import numpy as np
import pytest

from models.intake.histories import histories_together
from models.intake.history import ReadHistory, read_history
from models.intake.sales.joined import join_history
from models.values.sales import Sales

ORDERS = """Order number,Item number,Custom label,Item title,Sold for,Quantity,Sale date,Buyer username
O1,1001,A-1,Blue mug,8.00,1,2026-05-03,bob
O2,1002,A-2,Lamp,40.00,1,2026-05-04,ann
O3,1003,A-3,Jug,12.00,2,2026-05-05,eve
O4,1004,A-4,Pot,9.00,1,2026-05-06,joe
"""
LIVE = """Item number,Title,Current price,Available quantity,Start date
1003,Jug,13,4,2026-02-01
1009,Vase,20,1,2026-05-06
"""
ENDED = """Item number,Title,Start price,Start date,End date
1001,Blue mug,9,2026-01-05,2026-05-03
1002,Lamp,45,2026-01-06,2026-05-04
1008,Vase,25,2025-11-01,2026-02-01
1010,Cup,25,2025-11-01,2026-02-01
"""
FEES = """Order number,Type,Amount,Description
O1,Final value fee,-1.20,x
O1,Shipping label,-3.50,x
O2,Final value fee,-5.00,x
O4,Refund,-9.00,x
"""


def read(text: str, **mapping: str) -> ReadHistory:
    return read_history(text.encode(), "file.csv", mapping, "USD")


def together(*texts: str) -> Sales:
    return histories_together([(f"{n}.csv", read(text)) for n, text in enumerate(texts)]).sales


def table(sales: Sales) -> dict[tuple[str, str, str], tuple[object, ...]]:
    """What each sale or listing says, by order, listing number and title."""
    names = ("quantity", "sold_price", "asking_price", "listed_on", "first_listed_on", "sold_on", "fees", "refunded")
    columns = zip(*(getattr(sales, name).astype(str).tolist() for name in names), strict=True)
    keys = zip(sales.order_ref, sales.listing_ref, sales.title, strict=True)
    return dict(zip(keys, columns, strict=True))


def test_four_files_are_one_history() -> None:
    found = table(together(ORDERS, LIVE, ENDED, FEES))
    assert found == {
        ("O1", "1001", "Blue mug"): ("1", "800.0", "900.0", "2026-01-05", "NaT", "2026-05-03", "120.0", "nan"),
        ("O2", "1002", "Lamp"): ("1", "4000.0", "4500.0", "2026-01-06", "NaT", "2026-05-04", "500.0", "nan"),
        ("O3", "1003", "Jug"): ("2", "1200.0", "1300.0", "2026-02-01", "NaT", "2026-05-05", "nan", "nan"),
        ("O4", "1004", "Pot"): ("1", "900.0", "nan", "NaT", "NaT", "2026-05-06", "nan", "900.0"),
        ("", "1003", "Jug"): ("4", "nan", "1300.0", "2026-02-01", "NaT", "NaT", "nan", "nan"),
        ("", "1009", "Vase"): ("1", "nan", "2000.0", "2026-05-06", "2025-11-01", "NaT", "nan", "nan"),
        ("", "1010", "Cup"): ("1", "nan", "2500.0", "2025-11-01", "NaT", "NaT", "nan", "nan"),
    }


@pytest.mark.parametrize("order", list(itertools.permutations(range(4))))
def test_the_order_of_the_files_does_not_matter(order: tuple[int, ...]) -> None:
    files = (ORDERS, LIVE, ENDED, FEES)
    assert table(together(*(files[place] for place in order))) == table(together(*files))


def test_files_that_come_twice_change_nothing() -> None:
    files = (ORDERS, LIVE, ENDED, FEES)
    assert table(together(*files, *files)) == table(together(*files))
    assert len(together(*files, *files)) == 7


def test_unsold_in_march_and_sold_in_may_is_one_listing() -> None:
    head = "title,sold_price,listed_on,sold_on,listing_ref,condition\n"
    march = head + "Mug,,2026-02-01,,L1,new\nJug,,2026-03-31,,L2,new\n"
    may = head + "Mug,8,2026-02-01,2026-05-03,L1,new\nJug,,2026-03-31,,L2,new\n"
    for files in ((march, may), (may, march), (march, may, march)):
        sales = together(*files)
        assert sorted(zip(sales.title, sales.sold.tolist(), strict=True)) == [("Jug", False), ("Mug", True)]


def test_without_references_a_listing_is_known_by_its_words_and_day() -> None:
    head = "title,sold_price,listed_on,sold_on\n"
    march = head + "Mug,,2026-02-01,\nMug,,2026-02-01,\nMug,,2026-02-01,\nJug,,2026-03-31,\n"
    may = head + "Mug,8,2026-02-01,2026-05-03\nMug,8,2026-02-01,2026-05-04\nMug,,2026-02-01,\nJug,,2026-03-31,\n"
    sales = together(march, may)
    assert sorted(zip(sales.title, sales.sold.tolist(), strict=True)) == [
        ("Jug", False), ("Mug", False), ("Mug", True), ("Mug", True),
    ]  # fmt: skip
    assert table(together(march, may, may, march)) == table(sales)


def test_a_later_file_corrects_an_earlier_one_and_its_blanks_do_not() -> None:
    head = "title,sold_price,sold_on,listing_ref,order_ref,cost,fees\n"
    sales = together(head + "Mug,8,2026-05-03,L1,O1,2,1\n", head + "Blue mug,7,2026-05-04,L1,O1,3,\n")
    assert sales.title.tolist() == ["Blue mug"]
    assert (sales.sold_price[0], sales.cost[0], sales.fees[0]) == (700, 300, 100)
    assert str(sales.sold_on[0]) == "2026-05-04"


def test_a_corrected_price_without_references() -> None:
    head = "title,sold_price,listed_on,sold_on\n"
    sales = together(head + "Mug,8,2026-02-01,2026-05-03\n", head + "Mug,7,2026-02-01,2026-05-03\n")
    assert sales.sold_price.tolist() == [700]


def test_equal_sales_of_two_orders_stay_two() -> None:
    head = "order_ref,title,sold_price,sold_on\n"
    assert len(together(head + "O1,Mug,8,2026-05-03\n", head + "O2,Mug,8,2026-05-03\n")) == 2


def test_three_goods_of_one_order_find_their_own_lines() -> None:
    first = (
        "order_ref,sku,title,sold_price,sold_on\nO1,a,Mug,8,2026-05-03\nO1,b,Jug,9,2026-05-03\nO1,c,Pot,7,2026-05-03\n"
    )
    second = "order_ref,sku,title,sold_price,cost\nO1,c,Pot,7,3\nO1,a,Mug,8,1\nO1,b,Jug,9,2\n"
    sales = together(first, second)
    assert dict(zip(sales.title, sales.cost.tolist(), strict=True)) == {"Mug": 100, "Jug": 200, "Pot": 300}


def test_sold_returned_and_sold_again_is_two_sales() -> None:
    orders = (
        "order_ref,listing_ref,title,sold_price,sold_on\nO1,L1,Mug,8,2026-03-03\nO1,L1,Mug,-8,2026-03-20\n"
        "O2,L1,Mug,7,2026-05-03\n"
    )
    sales = together(orders)
    assert sales.sold_price.tolist() == [800, 700]
    assert sales.refunded.tolist()[0] == 800
    assert np.isnan(sales.refunded[1])
    assert table(together(orders, orders)) == table(sales)


def test_an_order_that_was_cancelled_later_is_no_sale() -> None:
    head = "order_ref,title,sold_price,sold_on,order status\n"
    sold, gone = head + "O1,Mug,8,2026-05-03,Paid\nO2,Jug,8,2026-05-03,Paid\n", head + "O1,Mug,8,2026-05-03,Cancelled\n"
    assert together(sold, gone).title.tolist() == ["Jug"]
    assert together(gone, sold).title.tolist() == ["Mug", "Jug"]


def test_refunds_and_fees_of_overlapping_statements_count_once() -> None:
    orders = "order_ref,title,sold_price,sold_on\nO1,Mug,8,2026-05-03\n"
    may = (
        "order_ref,type,amount,sold_on\nO1,Fee,-1.00,2026-05-03\nO1,Fee,-1.00,2026-05-03\nO1,Refund,-2.00,2026-05-09\n"
    )
    june = may + "O1,Refund,-1.00,2026-06-09\n"
    sales = together(orders, may, june)
    assert (sales.fees[0], sales.refunded[0]) == (200, 300)


def test_a_fee_of_an_order_is_shared_by_its_goods() -> None:
    orders = "order_ref,title,sold_price,quantity\nO1,Mug,10,1\nO1,Jug,15,2\n"
    sales = together(orders, "order_ref,fees\nO1,8.00\n")
    assert sales.fees.tolist() == [200, 300]


def test_orders_count_against_the_units_a_listing_says_it_sold() -> None:
    listing = 'listing_ref,title,sold_price,quantity,listed_on\nL1,Mug,8,"sold 6, left 14",2026-02-01\n'
    orders = (
        "listing_ref,order_ref,title,sold_price,quantity,sold_on\nL1,O1,Mug,7,2,2026-03-01\nL1,O2,Mug,8,3,2026-03-02\n"
    )
    sales = together(orders, listing)
    sold = sales.sold
    assert sales.quantity[sold].sum() == 6
    assert sorted(sales.sold_price[sold].tolist()) == [700, 800, 800]


def test_a_relisted_unit_keeps_its_first_listing_date() -> None:
    head = "listing_ref,title,sold_price,listed_on,sold_on\n"
    sales = together(head + "L1,Mug,,2026-02-01,\n", head + "L1,Mug,8,2026-04-01,2026-05-01\n")
    assert (str(sales.listed_on[0]), str(sales.first_listed_on[0])) == ("2026-04-01", "2026-02-01")
    ended = (
        "Listing number,SKU,Title,Start price,Start date,End date\n"
        "1,s1,Mug,9,2026-01-05,2026-02-05\n2,s1,Mug,9,2026-02-09,2026-03-09\n"
    )
    sold = "order_ref,listing_ref,sku,title,sold_price,listed_on,sold_on\nO1,3,s1,Mug,8,2026-04-01,2026-05-01\n"
    sales = together(ended, sold)
    assert (len(sales), str(sales.first_listed_on[0])) == (1, "2026-01-05")


def test_a_relisted_unit_is_known_though_no_file_holds_its_last_listing() -> None:
    ended = (
        "Item ID,Title,SKU,Start date,End date,Start price,Status\n81,Slate sign,s1,2026-01-01,2026-01-31,30,Unsold\n"
        "82,Slate sign,s1,2026-02-01,2026-02-28,28,Unsold\n84,Clay pot,s2,2026-01-05,2026-02-05,12,Unsold\n"
    )
    head = "Order ID,Item ID,Title,SKU,Sold price,Date sold\n"
    sales = together(ended, head + "R-1,83,Slate sign,s1,25,2026-03-10\n")
    days = sales.first_listed_on.astype(str).tolist()
    assert list(zip(sales.title, sales.sold.tolist(), days, strict=True)) == [
        ("Clay pot", False, "NaT"), ("Slate sign", True, "2026-01-01"),
    ]  # fmt: skip
    assert len(together(ended, head + "R-1,83,Slate sign,s1,25,2026-02-10\n")) == 3  # sold while 82 still ran


def test_units_of_another_files_count_set_the_amounts_of_a_row_right() -> None:
    orders = "order_ref,title,sold_price,quantity,sold_on\nO1,Mug,10,4,2026-05-01\n"
    costs = "order_ref,title,sold_price,cost\nO1,Mug,10,8\n"
    assert together(orders, costs).cost.tolist() == [200]
    assert together(orders, costs).quantity.tolist() == [4]


def test_a_lone_file_is_what_it_says() -> None:
    read_alone = read("title,sold_price\nMug,8\nMug,8\n")
    assert join_history([read_alone.part]).sales.sold_price.tolist() == [800, 800]
    assert len(join_history([]).sales) == 0


def test_a_missing_quarter_is_told() -> None:
    head, day = "title,sold_price,sold_on\n", np.datetime64("2026-01-01")
    first = head + "".join(f"Mug,8,{day + n}\n" for n in range(60))
    third = head + "".join(f"Mug,8,{day + 150 + n}\n" for n in range(60))
    cautions = histories_together([("a.csv", read(first)), ("b.csv", read(third))]).cautions
    assert any("No sale between 2026-03-01 and 2026-05-31" in caution.what for caution in cautions)


ORDERS_BY_SKU = "Order number,SKU,Title,Sold price,Date sold\nO1,K1,Blue mug,8.00,2026-03-05\nO2,K2,Jug,9,2026-03-06\n"


def test_a_retitled_listing_is_known_by_its_sku() -> None:
    listed = "SKU,Title,Asking price,Date listed\nK1,Mug in blue,8.50,2026-02-01\n"
    sales = together(ORDERS_BY_SKU, listed)
    assert sales.title.tolist() == ["Blue mug", "Jug"]
    assert sales.listed_on.astype(str).tolist() == ["2026-02-01", "NaT"]


@pytest.mark.parametrize(
    "listed",
    [
        "K1,Desk lamp,8.50,2026-02-01\n",  # the SKU was given to other goods
        "K1,Mug in blue,8.50,2026-02-01\nK1,Mug in red,8.50,2026-02-01\n",  # a shelf's
        "K1,Mug in blue,8.50,2026-04-01\n",  # begun after the sale
    ],
)
def test_a_sku_alone_is_not_enough(listed: str) -> None:
    sales = together(ORDERS_BY_SKU, "SKU,Title,Asking price,Date listed\n" + listed)
    assert np.isnat(sales.listed_on[sales.sold]).all()
    assert int((~sales.sold).sum()) == listed.count("\n")
