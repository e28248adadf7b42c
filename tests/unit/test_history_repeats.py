"""Rows that stand twice, in one file or in two, and refunds whose sale no file holds: each is named."""

import pytest

from models.intake.histories import histories_together
from models.intake.history import ReadHistory, read_history

SALE = "O1,Mug,8,2026-03-05"
OTHER = "O2,Jug,9,2026-03-05"


def read(header: str, *rows: str, name: str = "s.csv") -> ReadHistory:
    return read_history("\n".join((header, *rows)).encode(), name, {}, "USD")


def orders(*rows: str) -> ReadHistory:
    return read("Order number,Title,Sold price,Date sold", *rows)


def said(done: ReadHistory, words: str) -> list[str]:
    return [one.what for one in done.cautions if words in one.what]


def counts(done: ReadHistory) -> tuple[int, int, int]:
    return done.problems.rows, done.problems.kept, done.problems.set_aside


def test_a_row_of_one_order_that_comes_again_counts_once_and_is_named() -> None:
    done = orders(SALE, OTHER, SALE)
    assert counts(done) == (3, 2, 1)
    assert [(one.row, one.reason) for one in done.problems.items] == [
        (4, "the same as row 2 in every cell: counted once")
    ]
    assert done.sales.title.tolist() == ["Mug", "Jug"]


def test_rows_of_one_order_may_be_a_unit_each_where_the_file_counts_no_units() -> None:
    done = orders(SALE, SALE, SALE, OTHER)
    assert counts(done) == (4, 4, 0)
    assert "2 (rows 2 and 3; rows 2 and 4)" in said(done, "in every cell")[0]
    done = read("Order number,Title,Sold price,Date sold,Quantity", f"{SALE},1", f"{SALE},1", f"{OTHER},1")
    assert counts(done) == (3, 2, 1)


def test_equal_sales_without_any_number_both_count_and_it_is_said() -> None:
    done = read("Title,Sold price,Date sold", "Mug,8,2026-03-05", "Mug,8,2026-03-05", "Jug,9,2026-03-05")
    assert counts(done) == (3, 3, 0)
    assert "1 (rows 2 and 3)" in said(done, "in every cell")[0]


def test_a_cell_that_nobody_reads_tells_two_sales_apart() -> None:
    done = read("Order number,Title,Sold price,Date sold,Transaction", f"{SALE},771", f"{OTHER},772", f"{SALE},773")
    assert (counts(done), said(done, "in every cell")) == ((3, 3, 0), [])


def test_a_listing_sells_more_than_once_only_where_the_file_shows_it() -> None:
    once, again, later = "L1,Mug,8,2026-03-05", "L2,Jug,9,2026-03-06", "L2,Jug,9,2026-03-07"
    done = read("Listing number,Title,Sold price,Date sold", once, once, again, later, later)
    assert counts(done) == (5, 4, 1)
    assert "rows 5 and 6" in said(done, "in every cell")[0]
    done = read("Listing number,Title,Sold price,Date sold", "L1,Mug,,", "L1,Mug,,", again)
    assert counts(done) == (3, 2, 1)


def test_fees_may_be_charged_twice() -> None:
    sales = orders(SALE)
    fees = read("Order number,Fee type,Fees", "O1,Selling fee,1", "O1,Selling fee,1", name="f.csv")
    done = histories_together([("s.csv", sales), ("f.csv", fees)])
    assert (done.sales.fees.tolist(), said(done, "in every cell")) == ([200.0], [])


def test_the_same_file_twice_is_named() -> None:
    done = histories_together([("a.csv", orders(SALE, OTHER)), ("b.csv", orders(SALE, OTHER))])
    assert len(done.sales) == 2
    assert said(done, "b.csv") == ["b.csv: all its rows (2) stand in a.csv too: each was counted once."]


def test_rows_that_two_files_hold_are_named() -> None:
    done = histories_together([("a.csv", orders(SALE, OTHER)), ("b.csv", orders(OTHER, "O3,Pot,7,2026-04-01"))])
    assert len(done.sales) == 3
    assert said(done, "b.csv") == ["b.csv: 1 of its 2 rows stands in a.csv too (row 2): each was counted once."]


@pytest.mark.parametrize("own_file", [True, False])
def test_a_refund_whose_sale_is_in_no_file_is_named(own_file: bool) -> None:
    lost = "O9,Lamp,-12,2026-03-09"
    if own_file:
        done = histories_together([("a.csv", orders(SALE)), ("b.csv", orders(OTHER, lost))])
    else:
        done = orders(SALE, OTHER, lost)
    row = 3 if own_file else 4
    assert said(done, "Refunds that belong to no sale") == [
        f"Refunds that belong to no sale in your files: 1 (row {row}: order O9 'Lamp'). They were not counted."
    ]
    assert done.sales.title.tolist() == ["Mug", "Jug"]
