"""Days in the future: a few are blanked and named, many are doubted as a whole."""

import datetime as dt

import numpy as np

from models.intake.histories import histories_together
from models.intake.history import ReadHistory, read_history
from models.intake.sales.future_days import without_future_days
from models.values.sale_parts import LEFT, LIVE

TODAY = dt.date(2026, 7, 1)


def read(*rows: str) -> ReadHistory:
    return without("\n".join(["Item,Sold for,First listed,Date listed,Date sold", *rows]))


def without(text: str) -> ReadHistory:
    return without_future_days(read_history(text.encode(), "s.csv", {}, "USD"), TODAY)


def test_a_sale_in_the_future_keeps_its_row_and_loses_its_day() -> None:
    found = read("Mug,8,2026-01-02,2026-02-02,2026-07-02", "Pot,9,2026-01-02,2026-02-02,2026-07-03")
    assert found.sales.sold_on.astype(str).tolist() == ["2026-07-02", "NaT"], "tomorrow may be another zone's today"
    item = found.problems.items[0]
    assert (item.row, item.column, item.value, item.reason) == (3, "sold_on", "2026-07-03", "sold in the future")
    assert (found.problems.rows, found.problems.kept) == (2, 2)
    assert found.sales.sold_price.tolist() == [800.0, 900.0]


def test_a_listing_in_the_future_is_named_too_in_the_order_of_rows() -> None:
    found = read("Mug,,,2062-02-02,", "Pot,0,,,2026-06-01", "Jug,9,2071-01-01,,")
    assert [(one.row, one.column) for one in found.problems.items] == [
        (2, "listed_on"), (3, "sold_price"), (4, "first_listed_on")
    ]  # fmt: skip
    assert np.isnat(found.sales.listed_on).all()


def test_many_are_no_slips() -> None:
    found = read(*["Mug,8,,,2026-08-02"] * 6, *["Pot,9,,,2026-06-02"] * 6)
    assert not np.isnat(found.sales.sold_on).any()
    assert found.problems.items == ()
    assert found.cautions[-1].what == ("6 of 12 days in this history lie after today, 1 Jul 2026: too many for slips.")


def test_without_any_nothing_changes() -> None:
    plain = read_history(b"Item,Sold for,Date sold\nMug,8,2026-06-01\n", "s.csv", {}, "USD")
    assert without_future_days(plain, TODAY) is plain


def test_a_listing_that_ends_in_the_future_still_runs() -> None:
    head = "Title,Available quantity,Current price,Sold quantity,Start date,End date\n"
    read = without(head + "Clay pot,2,9.00,1,2026-05-20,2026-06-19\nClay jug,4,9.00,0,2026-06-21,2026-07-21\n")
    assert read.sales.ended_on.astype(str).tolist() == ["2026-06-19", "NaT"]
    assert read.part.role.tolist() == [LEFT, LIVE]
    live = [caution.what for caution in read.cautions if "still for sale" in caution.what]
    assert len(live) == 1
    assert "made: 1." in live[0]


def test_what_an_ended_listing_had_left_is_less_what_sold_before() -> None:
    ended = "Listing number,Title,Available quantity,Current price,Sold quantity,Start date,End date\n"
    listings = without(ended + "7,Clay dish,1,9.00,3,2026-05-20,2026-06-19\n")
    orders = without("Order,Listing number,Title,Qty,Sold price,Sold on\nO-1,7,Clay dish,3,9.00,2026-06-10\n")
    sales = histories_together([("ended.csv", listings), ("orders.csv", orders)]).sales
    assert sorted(zip(sales.sold.tolist(), sales.quantity.tolist(), strict=True)) == [(False, 1), (True, 3)]
