"""The invented shop's three years as a seller exports them: every quarter anew, or in orders, listings and fees."""

from dataclasses import fields, replace
from pathlib import Path

import numpy as np
import pytest

from models.intake.history import read_history
from models.intake.sales.joined import join_history
from models.values.arrays import texts
from models.values.sale_parts import FEES, KNOWN, LIVE, SOLD, SalePart
from models.values.sales import Sales

HISTORY = Path(__file__).parents[2] / "demo_data" / "sold_history.csv"
OF_SALE = ("sold_price", "fees", "shipping_charged", "shipping_paid", "refunded")
NEVER = np.datetime64("NaT", "D")


@pytest.fixture(scope="module")
def full() -> Sales:
    return read_history(HISTORY.read_bytes(), HISTORY.name, {}, "USD").sales


def known_by(sales: Sales, day: str) -> Sales:
    """What an export of that day holds: later sales still stand as unsold listings, later listings not at all."""
    sales = sales.take(~(sales.listed_on > np.datetime64(day)))
    later = sales.sold_on > np.datetime64(day)
    blank = {name: np.where(later, np.nan, getattr(sales, name)) for name in OF_SALE}
    orders = texts(["" if late else order for late, order in zip(later, sales.order_ref, strict=True)])
    return replace(sales, **blank, sold_on=np.where(later, NEVER, sales.sold_on), order_ref=orders)


def without_references(sales: Sales) -> Sales:
    nothing = texts([""] * len(sales))
    return replace(sales, listing_ref=nothing, order_ref=nothing)


def part(sales: Sales, role: int | np.ndarray) -> SalePart:
    roles = np.broadcast_to(np.asarray(role, dtype=np.int8), len(sales)).copy()
    return SalePart(sales, roles, np.zeros(len(sales), dtype=np.int8))


def in_order(sales: Sales) -> Sales:
    """The same rows, whatever file brought them first."""
    return sales.take(np.lexsort((sales.order_ref.astype(str), sales.listing_ref.astype(str))))


def same(one: Sales, other: Sales, *but: str) -> None:
    for field in fields(Sales):
        if field.name not in ("row", *but):
            a, b = getattr(one, field.name), getattr(other, field.name)
            assert np.array_equal(a, b, equal_nan=a.dtype.kind in "fM"), field.name


def test_quarter_after_quarter_is_the_last_export(full: Sales) -> None:
    exports = [known_by(full, day) for day in ("2025-06-30", "2025-12-31", "2026-03-31")]
    for files in ([*exports, full], [full, *exports], [full, exports[0], full]):
        same(in_order(join_history([SalePart.plain(one) for one in files]).sales), in_order(full))


def test_without_references_no_sale_and_no_listing_is_counted_twice(full: Sales) -> None:
    bare = without_references(full)
    exports = [without_references(known_by(full, day)) for day in ("2025-06-30", "2026-03-31")]
    for files in ([*exports, bare], [bare, *exports]):
        joined = join_history([SalePart.plain(one) for one in files]).sales
        assert (len(joined), joined.sold.sum()) == (len(full), full.sold.sum())
        for name in ("sold_price", "cost", "fees"):
            assert np.nansum(getattr(joined, name)) == pytest.approx(np.nansum(getattr(full, name)))


def test_orders_listings_and_fees_are_the_whole(full: Sales) -> None:
    sold = full.take(full.sold & (full.order_ref != ""))
    blank = np.full(len(sold), np.nan)
    orders = replace(
        sold,
        fees=blank,
        listed_on=np.full(len(sold), NEVER),
        first_listed_on=np.full(len(sold), NEVER),
        asking_price=blank,
    )
    nothing = np.full(len(full), np.nan)
    listings = replace(
        full, **dict.fromkeys(OF_SALE, nothing), sold_on=np.full(len(full), NEVER), order_ref=texts([""] * len(full))
    )
    statement = replace(Sales.blank(len(sold)), order_ref=sold.order_ref, fees=sold.fees * sold.quantity)
    told = ~np.isnan(statement.fees)
    parts = [
        part(statement.take(told), FEES),
        part(listings, np.where(full.sold, KNOWN, LIVE)),
        part(orders, SOLD),
    ]
    expected = full.take(~full.sold | (full.order_ref != ""))
    joined = join_history(parts)
    assert joined.cautions == ()
    same(in_order(joined.sales), in_order(expected), "fees")
    assert np.allclose(in_order(joined.sales).fees, in_order(expected).fees, equal_nan=True)
