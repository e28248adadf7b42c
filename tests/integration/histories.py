"""Small sold histories and lots made in the test."""

from dataclasses import fields, replace

import numpy as np

from models.values.arrays import texts
from models.values.lines import Lines
from models.values.sales import Sales

_TEXTS = ("title", "brand", "category", "sku", "gtin", "lot", "source", "place", "listing_ref", "order_ref")
_DAYS = ("listed_on", "first_listed_on", "sold_on", "ended_on")


def some_sales(rows: int) -> Sales:
    """A history with every kind of blank, of sign and of letter."""
    index = np.arange(rows)
    made: dict[str, object] = {}
    for field in fields(Sales):
        if field.name in _TEXTS:
            made[field.name] = texts([f"{field.name} Ø「{i}」" if i % 3 else "" for i in index])
        elif field.name in _DAYS:
            days = np.datetime64("2026-01-01", "D") + index.astype("timedelta64[D]")
            made[field.name] = np.where(index % 4 == 1, np.datetime64("NaT", "D"), days)
        else:
            made[field.name] = np.where(index % 5 == 2, np.nan, 100.0 / 3 + index)
    made["ended_on"] = np.where(np.isnan(made["sold_price"]), made["ended_on"], np.datetime64("NaT", "D"))  # type: ignore[call-overload]
    codes = {"condition": (index % 7 - 1).astype(np.int8), "sourced": (index % 3 - 1).astype(np.int8)}
    return Sales(**made | codes | {"row": index + 4, "quantity": index % 3 + 1})  # type: ignore[arg-type]


def with_texts(sales: Sales, **columns: list[str]) -> Sales:
    """The same rows with some text columns replaced."""
    return replace(sales, **{name: texts(values) for name, values in columns.items()})  # type: ignore[arg-type]


def some_lines(rows: int) -> Lines:
    """A manifest with blanks."""
    index = np.arange(rows)
    named = {
        name: texts([f"{name} {i}" if i % 2 else "" for i in index]) for name in ("brand", "sku", "gtin", "pallet")
    }
    return Lines(
        no=index + 1,
        row=index + 7,
        description=texts([f"Thing {i}" for i in index]),
        category=texts(["Home > Kitchen" if i % 2 else "" for i in index]),
        condition=(index % 7 - 1).astype(np.int8),
        quantity=index + 1,
        tag_each=np.where(index % 3 == 0, np.nan, 1999.0 + index),
        weight_kg=np.where(index % 2 == 0, np.nan, 0.1 * index),
        assorted=index % 4 == 0,
        **named,
    )


def same_columns(one: Sales | Lines, other: Sales | Lines) -> bool:
    """True if every array is equal, in values and in type, blanks included."""
    names = [field.name for field in fields(one)]
    return all(_same(getattr(one, name), getattr(other, name)) for name in names)


def _same(left: np.ndarray, right: np.ndarray) -> bool:
    if left.dtype != right.dtype:
        return False
    return np.array_equal(left, right, equal_nan=left.dtype.kind in "fM")
