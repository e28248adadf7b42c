"""Sales come back exactly as the intake gave them, and come in once."""

from dataclasses import replace

import numpy as np
import pytest
import sqlalchemy as sa
from histories import same_columns, some_lines, some_sales, with_texts

from models.intake.sales.joined import join_history
from models.services.join_sales import join_sales, keep_joined
from models.services.read_sales import count_sales, read_sales
from models.services.submit_import import submit_import
from models.services.users import open_shop
from models.store.records import ShopId, Upload
from models.store.states import FileState
from models.store.unit_of_work import Store
from models.values.errors import NotFound, Rejected
from models.values.sale_parts import COUNTED, FEES, LIVE, SalePart
from models.values.sales import Sales


def imported(store: Store, shop: ShopId, sales: Sales | SalePart, again: str | None = None) -> tuple[str, int]:
    """An import that holds these sales, or another reading of one; how many rows of the table it brought."""
    part = SalePart.plain(sales) if isinstance(sales, Sales) else sales
    with store.write() as work:
        made = again or submit_import(work, shop, Upload("history.csv", [b"x"])).subject.id
    with store.read() as work:
        joined = join_sales(work, shop, made, part)
    with store.write() as work:
        added = keep_joined(work, shop, made, part, joined).added
    return made, added


def loaded(store: Store, shop: ShopId) -> Sales:
    with store.read() as work:
        return work.sales.load(shop, work.imports.ready_ids(shop))


def test_sales_come_back_exactly(store: Store, shop: ShopId) -> None:
    sales = some_sales(50)
    imported(store, shop, sales)
    assert same_columns(loaded(store, shop), sales)


def test_no_sales_are_empty_columns(store: Store, shop: ShopId) -> None:
    imported(store, shop, some_sales(0))
    assert same_columns(loaded(store, shop), some_sales(0))


def test_imports_come_in_the_order_they_were_uploaded(store: Store, shop: ShopId) -> None:
    sales = some_sales(12)
    late, early = sales.take(np.arange(6, 12)), sales.take(np.arange(6))
    imported(store, shop, late)
    imported(store, shop, early)
    assert same_columns(loaded(store, shop), sales.take(np.array([6, 7, 8, 9, 10, 11, 0, 1, 2, 3, 4, 5])))


def test_the_same_file_again_adds_nothing(store: Store, shop: ShopId) -> None:
    sales = some_sales(20)
    assert [imported(store, shop, sales)[1], imported(store, shop, sales)[1]] == [20, 0]
    assert same_columns(loaded(store, shop), sales)


def test_equal_rows_of_one_file_are_all_kept(store: Store, shop: ShopId) -> None:
    twice = some_sales(20).take(np.array([0, 0, 0, 1]))
    twice = Sales(**{**vars(twice), "row": np.arange(2, 6)})
    assert imported(store, shop, twice)[1] == 4


def test_an_overlapping_file_adds_what_is_new(store: Store, shop: ShopId) -> None:
    sales = some_sales(30)
    imported(store, shop, sales.take(np.arange(20)))
    assert imported(store, shop, sales.take(np.arange(10, 30)))[1] == 10


def test_a_listing_that_sold_meanwhile_is_one_listing(store: Store, shop: ShopId) -> None:
    sold = with_texts(some_sales(1), listing_ref=["L1"], order_ref=[""])
    sold = replace(sold, refunded=np.array([np.nan]))
    unsold = replace(sold, sold_price=np.array([np.nan]), sold_on=np.array(["NaT"], "datetime64[D]"))
    imported(store, shop, unsold)
    assert imported(store, shop, sold)[1] == 1
    table = loaded(store, shop)
    assert (len(table), table.sold.tolist()) == (1, [True])
    assert imported(store, shop, unsold)[1] == 0  # the old file again does not unsell it
    assert same_columns(loaded(store, shop), table)


def test_a_correction_changes_the_sale_it_corrects(store: Store, shop: ShopId) -> None:
    sold = with_texts(some_sales(3), listing_ref=["L1", "L2", "L3"], order_ref=["O1", "O2", "O3"])
    sold = replace(sold, sold_price=np.array([800.0, 801.0, 802.0]), cost=np.array([1.0, 2.0, 3.0]))
    imported(store, shop, sold)
    dearer = replace(sold, cost=np.array([5.0, 6.0, np.nan]), sold_price=np.array([900.0, 901.0, 902.0]))
    assert imported(store, shop, dearer)[1] == 0
    table = loaded(store, shop)
    assert table.sold_price.tolist() == [900, 901, 902]
    assert table.cost.tolist() == [5, 6, 3]  # a blank is no word


def test_only_what_changed_is_written(store: Store, shop: ShopId) -> None:
    sold = with_texts(some_sales(3), listing_ref=["L1", "L2", "L3"], order_ref=["O1", "O2", "O3"])
    imported(store, shop, sold)
    with store.read() as work:
        before = {one.row: one for one in read_sales(work, shop).items}
    imported(store, shop, replace(sold, sold_price=np.array([np.nan, 777.0, np.nan])).take(np.array([1])))
    with store.read() as work:
        after = {one.row: one for one in read_sales(work, shop).items}
    assert {row for row in before if before[row] != after[row]} == {sold.row[1]}


def test_reading_again_replaces_the_imports_own_sales(store: Store, shop: ShopId) -> None:
    import_id, _ = imported(store, shop, some_sales(10))
    fewer = some_sales(4)
    assert imported(store, shop, fewer, again=import_id) == (import_id, 4)
    assert same_columns(loaded(store, shop), fewer)


def test_fees_wait_for_their_orders(store: Store, shop: ShopId) -> None:
    sold = with_texts(some_sales(3), order_ref=["O1", "O2", "O3"])
    fees = SalePart(
        replace(with_texts(Sales.blank(1), order_ref=["O2"]), fees=np.array([333.0])),
        np.array([FEES], dtype=np.int8),
        np.zeros(1, dtype=np.int8),
    )
    assert imported(store, shop, fees)[1] == 0
    assert len(loaded(store, shop)) == 0
    assert imported(store, shop, sold)[1] == 3
    assert loaded(store, shop).fees[1] == 333 / max(sold.quantity[1], 1)


def test_a_row_of_two_pieces_comes_back_as_two(store: Store, shop: ShopId) -> None:
    row = with_texts(some_sales(1), listing_ref=["L1"], order_ref=[""])
    left = replace(row, sold_price=np.array([np.nan]), quantity=np.array([14]))
    both = Sales(**{name: np.concatenate([column, getattr(left, name)]) for name, column in vars(row).items()})
    part = SalePart(both, np.array([COUNTED, LIVE], dtype=np.int8), np.array([0, 1], dtype=np.int8))
    assert imported(store, shop, part)[1] == 2
    assert loaded(store, shop).quantity.tolist() == [row.quantity[0], 14]
    with store.read() as work:
        first = read_sales(work, shop, 1)
        assert [one.quantity for one in read_sales(work, shop, 1, first.next).items] == [14]


def test_one_after_another_is_the_same_as_together(store: Store, shop: ShopId) -> None:
    sales = some_sales(40)
    parts = [sales.take(np.arange(0, 25)), sales.take(np.arange(10, 40)), sales.take(np.arange(5, 12))]
    for part in parts:
        imported(store, shop, part)
    together = join_history([SalePart.plain(part) for part in parts]).sales
    assert same_columns(loaded(store, shop), together)


def test_sales_read_before_parts_were_kept_take_part(store: Store, shop: ShopId) -> None:
    sold = with_texts(some_sales(2), listing_ref=["L1", "L2"], order_ref=["O1", "O2"])
    imported(store, shop, sold)
    with store.write() as work:
        work._connection.execute(sa.text("UPDATE import SET part_blob_id = NULL"))
    imported(store, shop, replace(sold, cost=np.array([5.0, 6.0])))
    assert loaded(store, shop).cost.tolist() == [5, 6]
    with store.read() as work:
        assert [one for one, blob in work.parts.mark(shop) if blob is None] == []


def test_shops_do_not_see_each_other(store: Store, shop: ShopId) -> None:
    import_id, _ = imported(store, shop, some_sales(5))
    with store.write() as work:
        other = open_shop(work, "Other").id
    assert imported(store, other, some_sales(5))[1] == 5
    with store.read() as work:
        assert len(work.sales.load(other, (import_id,))) == 0
        assert count_sales(work, other) == 5
        with pytest.raises(NotFound):
            work.imports.require(other, import_id)


def test_pages_hold_every_sale_once(store: Store, shop: ShopId) -> None:
    imported(store, shop, some_sales(7))
    seen, cursor = [], None
    with store.read() as work:
        while True:
            page = read_sales(work, shop, 3, cursor)
            seen += [one.row for one in page.items]
            cursor = page.next
            if cursor is None:
                break
        assert seen == list(range(4, 11))
        for bad in ("nonsense", "W10", "WyIxIiwgMl0"):
            with pytest.raises(Rejected):
                read_sales(work, shop, 3, bad)
        for limit in (0, 501):
            with pytest.raises(Rejected):
                read_sales(work, shop, limit)


def test_lines_come_back_exactly(store: Store, shop: ShopId) -> None:
    from models.services.submit_lot import LotAsked, submit_lot

    lines = some_lines(9)
    with store.write() as work:
        lot = submit_lot(work, shop, Upload("m.csv", [b"x"]), LotAsked("A lot")).subject
        work.lines.replace(shop, lot.id, lines)
    with store.read() as work:
        assert same_columns(work.lines.load(shop, lot.id), lines)
        assert work.lots.require(shop, lot.id).state is FileState.READING
