"""What the store works out without a database: cursors and the identity of a sale."""

import numpy as np
import pytest

from models.store.paging import cursor_of, read_cursor
from models.store.queries.fingerprints import fingerprints
from models.values.arrays import texts
from models.values.errors import Rejected
from models.values.sales import Sales


def sales(title: list[str], listing: list[str], order: list[str], sold_on: list[str], price: list[float]) -> Sales:
    rows = len(title)
    blank, unknown = texts([""] * rows), np.full(rows, -1, dtype=np.int8)
    nothing, no_day = np.full(rows, np.nan), np.full(rows, "NaT", dtype="datetime64[D]")
    return Sales(
        row=np.arange(rows) + 2, title=texts(title), brand=blank, category=blank, condition=unknown,
        quantity=np.ones(rows, dtype=np.int64), tag_each=nothing, sold_price=np.array(price), asking_price=nothing,
        cost=nothing, fees=nothing, shipping_charged=nothing, shipping_paid=nothing, refunded=nothing,
        listing_minutes=nothing, listed_on=no_day, first_listed_on=no_day, ended_on=no_day,
        sold_on=np.array(sold_on, dtype="datetime64[D]"), sourced=unknown, sku=blank, gtin=blank, lot=blank,
        source=blank, place=blank, listing_ref=texts(listing), order_ref=texts(order),
    )  # fmt: skip


def one(title: str = "Mug", day: str = "2026-05-01", price: float = 100.0, place: str = "A", piece: int = 0) -> bytes:
    return fingerprints([place], [piece], sales([title], [""], [""], [day], [price]))[0]


def test_every_cell_counts() -> None:
    assert one() == one()
    assert len({one(), one(title="Cup"), one(price=101.0), one(price=np.nan), one(day="2026-05-02")}) == 5


def test_the_file_and_the_piece_of_a_row_count() -> None:
    assert len({one(), one(place="B"), one(piece=1)}) == 3


def test_rows_keep_their_order() -> None:
    three = sales(["Mug", "Cup", "Mug"], [""] * 3, [""] * 3, ["2026-05-01"] * 3, [100.0] * 3)
    marks = fingerprints(["A"] * 3, [0] * 3, three)
    assert marks[0] == one()
    assert len(set(marks)) == 3  # each row stands in a row of its own


@pytest.mark.parametrize("values", [(5, "a"), (-(2**62), "é\0"), ("x", 1.5, None)])
def test_a_cursor_comes_back(values: tuple[object, ...]) -> None:
    assert read_cursor(cursor_of(values), [object] * len(values)) == list(values)


@pytest.mark.parametrize(
    "cursor",
    [
        "",
        "!",
        "é",
        "bnVsbA",
        cursor_of(()),
        cursor_of((1,)),
        cursor_of(("1", "a")),
        cursor_of((True, "a")),
        cursor_of((2**63, "a")),
    ],
)
def test_a_cursor_not_of_ours_is_refused(cursor: str) -> None:
    with pytest.raises(Rejected):
        read_cursor(cursor, (int, str))
