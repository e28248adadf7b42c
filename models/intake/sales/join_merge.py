"""What do several files say together of one sale or listing?  The later word wins; a blank is no word."""

from dataclasses import fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from models.intake.sales.join_pool import Groups, Pool
from models.values.arrays import BoolArray, DayArray, IntArray
from models.values.sales import Sales

PER_ROW = frozenset({"cost", "fees", "shipping_charged", "shipping_paid", "refunded", "listing_minutes"})
_OWN = frozenset({"row", "quantity", "first_listed_on"})


def merged(pool: Pool, groups: Groups) -> Sales:
    """One row a group, in the groups' order; quantity stays 0 where no file counts.

    A unit's share of a row's amounts is set right where another file knows the row's units.  A relisted unit keeps the
    first of its days of listing.
    """
    first = np.array([group[0] for group in groups], dtype=np.int64)
    made = pool.sales.take(first)
    layers = _layers(groups)
    if not layers:
        return made
    quantity = _newest(pool, "quantity", made.quantity.copy(), layers)
    columns = {name: column for name, column in vars(made).items() if name in ("row", "first_listed_on")}
    for field in fields(Sales):
        if field.name not in _OWN:
            start = _scaled(pool, field.name, first, quantity)
            columns[field.name] = _newest(pool, field.name, start, layers, quantity)
    columns["quantity"] = quantity
    return _first_listed(pool, Sales(**columns), first, layers)


def is_blank(column: NDArray[Any]) -> BoolArray:
    """Cells that say nothing: "", NaN, NaT, an unknown code, no count."""
    kind = column.dtype.kind
    if kind == "O":
        return np.asarray(column == "", dtype=np.bool_)
    if kind == "f":
        return np.asarray(np.isnan(column), dtype=np.bool_)
    if kind == "M":
        return np.asarray(np.isnat(column), dtype=np.bool_)
    return np.asarray(column < 0 if column.dtype == np.int8 else column == 0, dtype=np.bool_)


def earliest(days: DayArray, others: DayArray) -> DayArray:
    """The earlier of two days, blanks aside."""
    return np.where(np.isnat(days) | (others < days), others, days)


def _layers(groups: Groups) -> list[tuple[IntArray, IntArray]]:
    """Places of groups with a k-th member and those members, for k from 2."""
    several = [(place, group) for place, group in enumerate(groups) if len(group) > 1]
    longest = max((len(group) for _, group in several), default=1)
    layers = []
    for depth in range(1, longest):
        pairs = [(place, group[depth]) for place, group in several if len(group) > depth]
        places, rows = zip(*pairs, strict=True)
        layers.append((np.array(places, dtype=np.int64), np.array(rows, dtype=np.int64)))
    return layers


def _newest(
    pool: Pool,
    name: str,
    start: NDArray[Any],
    layers: list[tuple[IntArray, IntArray]],
    quantity: IntArray | None = None,
) -> NDArray[Any]:
    for places, rows in layers:
        said = _scaled(pool, name, rows, None if quantity is None else quantity[places])
        told = ~is_blank(said)
        start[places[told]] = said[told]
    return start


def _scaled(pool: Pool, name: str, rows: IntArray, quantity: IntArray | None) -> NDArray[Any]:
    """The rows' cells; amounts of a row a unit of `quantity`."""
    column: NDArray[Any] = getattr(pool.sales, name)[rows]
    if name not in PER_ROW or quantity is None:
        return column.copy()
    return column * np.maximum(pool.sales.quantity[rows], 1) / np.maximum(quantity, 1)


def _first_listed(pool: Pool, made: Sales, first: IntArray, layers: list[tuple[IntArray, IntArray]]) -> Sales:
    begun = earliest(pool.sales.first_listed_on[first], pool.sales.listed_on[first])
    for places, rows in layers:
        begun[places] = earliest(begun[places], earliest(pool.sales.first_listed_on[rows], pool.sales.listed_on[rows]))
    several = np.zeros(len(made), dtype=bool)
    for places, _ in layers:
        several[places] = True
    kept = np.where(several & (begun < made.listed_on), begun, made.first_listed_on)
    return replace(made, first_listed_on=kept)
