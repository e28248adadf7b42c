"""Days in the future: a few are blanked and named, many are doubted as a whole."""

import datetime as dt

import numpy as np

from models.intake.history import ReadHistory, read_history
from models.intake.sales.future_days import without_future_days

TODAY = dt.date(2026, 7, 1)


def read(*rows: str) -> ReadHistory:
    text = "\n".join(["Item,Sold for,First listed,Date listed,Date sold", *rows])
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
