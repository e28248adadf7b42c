"""Sales come back exactly as the intake gave them, and come in once."""

import numpy as np
import pytest
from histories import same_columns, some_lines, some_sales, with_texts

from models.services.read_sales import count_sales, read_sales
from models.services.submit_import import submit_import
from models.services.users import open_shop
from models.store.records import ShopId, Upload
from models.store.states import FileState
from models.store.unit_of_work import Store
from models.values.errors import NotFound, Rejected
from models.values.sales import Sales


def imported(store: Store, shop: ShopId, sales: Sales) -> tuple[str, int]:
    """An import that holds these sales; how many were new."""
    with store.write() as work:
        made = submit_import(work, shop, Upload("history.csv", [b"x"])).subject
        added = work.sales.replace(shop, made.id, sales)
        work.imports.save_read(shop, made.id, added, len(sales) - added)
    return made.id, added


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


def test_a_listing_that_sold_meanwhile_is_a_new_state(store: Store, shop: ShopId) -> None:
    listed = with_texts(some_sales(1), listing_ref=["L1"], order_ref=[""])
    unsold = Sales(**{**vars(listed), "sold_price": np.array([np.nan]), "sold_on": np.array(["NaT"], "datetime64[D]")})
    dearer = Sales(**{**vars(listed), "cost": np.array([5.0])})
    assert [imported(store, shop, one)[1] for one in (unsold, listed, dearer)] == [1, 1, 0]


def test_reading_again_replaces_the_imports_own_sales(store: Store, shop: ShopId) -> None:
    import_id, _ = imported(store, shop, some_sales(10))
    fewer = some_sales(4)
    with store.write() as work:
        assert work.sales.replace(shop, import_id, fewer) == 4
    assert same_columns(loaded(store, shop), fewer)


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
