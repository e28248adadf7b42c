"""Sales: kept once, read back exactly as the intake gave them."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import fields
from typing import Any

import numpy as np
import sqlalchemy as sa

from models.store.paging import limited, page_of, read_cursor
from models.store.queries.fingerprints import fingerprints
from models.store.records import Page, SaleRecord, ShopId
from models.store.tables.sales import sale, sales_import
from models.values.arrays import texts
from models.values.conditions import name_of
from models.values.sales import Sales

_NAMES = tuple(field.name for field in fields(Sales))
_TEXT = {column.name for column in sale.c if isinstance(column.type, sa.Text)}
_DAY = {"listed_on", "first_listed_on", "sold_on", "ended_on"}
_CODE = {"condition", "sourced"}
_WHOLE = {"row", "quantity"}
_BATCH = 5_000
_ORDER = (sales_import.c.number, sale.c.row, sale.c.piece)
_EPOCH = dt.date(1970, 1, 1)


class SalesQueries:
    """Queries over `sale`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def keep(self, shop: ShopId, origins: Sequence[str], pieces: Sequence[int], sales: Sales) -> None:
        """Make these all sales of the shop, each of an import and a piece of its row; only changes are written."""
        query = sa.select(sale.c.import_id, sale.c.row, sale.c.piece, sale.c.fingerprint).where(sale.c.shop_id == shop)
        gone = {(row[0], row[1], row[2]): bytes(row[3]) for row in self._connection.execute(query)}
        changed: list[int] = []
        marks = fingerprints(origins, pieces, sales)
        places = list(zip(origins, sales.row.tolist(), pieces, strict=True))
        for number, (place, mark) in enumerate(zip(places, marks, strict=True)):
            if gone.get(place) == mark:
                del gone[place]
            else:
                changed.append(number)
        self._forget(shop, list(gone))
        change = self.last_change(shop) + 1
        for start in range(0, len(changed), _BATCH):
            chosen = changed[start : start + _BATCH]
            written = [(*places[number], marks[number], change) for number in chosen]
            self._insert(shop, written, sales.take(np.array(chosen)))

    def _forget(self, shop: ShopId, places: Sequence[tuple[str, int, int]]) -> None:
        own = sa.and_(
            sale.c.shop_id == shop,
            sale.c.import_id == sa.bindparam("of_import"),
            sale.c.row == sa.bindparam("at_row"),
            sale.c.piece == sa.bindparam("of_piece"),
        )
        rows = [{"of_import": origin, "at_row": row, "of_piece": piece} for origin, row, piece in places]
        for start in range(0, len(rows), _BATCH):
            self._connection.execute(sale.delete().where(own), rows[start : start + _BATCH])

    def _insert(self, shop: ShopId, places: Sequence[tuple[str, int, int, bytes, int]], sales: Sales) -> None:
        columns = {name: _to_database(name, getattr(sales, name)) for name in _NAMES}
        rows = [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]
        for row, (origin, _, piece, mark, change) in zip(rows, places, strict=True):
            row |= {"shop_id": shop, "import_id": origin, "piece": piece, "fingerprint": mark, "change": change}
        self._connection.execute(sale.insert(), rows)

    def load(self, shop: ShopId, import_ids: tuple[str, ...]) -> Sales:
        """The sales of these imports in the order of imports and rows."""
        query = sa.select(*(sale.c[name] for name in _NAMES)).join(sales_import, sales_import.c.id == sale.c.import_id)
        query = query.where(sale.c.shop_id == shop, sale.c.import_id.in_(import_ids))
        query = query.order_by(*_ORDER).execution_options(yield_per=_BATCH)
        parts = [_columns(rows) for rows in self._connection.execute(query).partitions()] or [_columns([])]
        return Sales(**{name: np.concatenate([part[name] for part in parts]) for name in _NAMES})

    def count(self, shop: ShopId) -> int:
        """Rows of sold history."""
        query = sa.select(sa.func.count()).select_from(sale).where(sale.c.shop_id == shop)
        return self._connection.execute(query).scalar_one()

    def last_change(self, shop: ShopId, import_ids: Sequence[str] | None = None) -> int:
        """What wrote the newest row, of these imports where they are named; 0 without rows."""
        query = sa.select(sa.func.coalesce(sa.func.max(sale.c.change), 0)).where(sale.c.shop_id == shop)
        if import_ids is not None:
            query = query.where(sale.c.import_id.in_(import_ids))
        last: int = self._connection.execute(query).scalar_one()
        return last

    def count_written_since(self, shop: ShopId, change: int) -> int:
        """Rows that came, or changed, after this change."""
        later = sa.and_(sale.c.shop_id == shop, sale.c.change > change)
        return self._connection.execute(sa.select(sa.func.count()).select_from(sale).where(later)).scalar_one()

    def page(self, shop: ShopId, limit: int, cursor: str | None) -> Page[SaleRecord]:
        """Sales in the order of imports and rows."""
        query = sa.select(sale, sales_import.c.number).join(sales_import, sales_import.c.id == sale.c.import_id)
        query = query.where(sale.c.shop_id == shop)
        if cursor is not None:
            after = sa.tuple_(*map(sa.literal, read_cursor(cursor, (int, int, int))))
            query = query.where(sa.tuple_(*_ORDER) > after)
        query = query.order_by(*_ORDER).limit(limited(limit) + 1)
        rows = self._connection.execute(query).all()
        return page_of(rows, limit, lambda row: (row.number, row.row, row.piece), _record)


def _to_database(name: str, column: np.ndarray) -> list[Any]:
    if name in _DAY:
        blank = np.isnat(column)
        return [
            None if b else d for b, d in zip(blank, column.astype("datetime64[D]").astype(int).tolist(), strict=True)
        ]
    values = column.tolist()
    if name in _TEXT or name in _CODE or name in _WHOLE:
        return list(values)
    return [None if value != value else value for value in values]  # NaN is blank


def _columns(rows: Sequence[Any]) -> dict[str, Any]:
    """Arrays of some rows: a batch at a time, since half a million rows as Python objects fill the memory."""
    columns = zip(*rows, strict=True) if rows else ([] for _ in _NAMES)
    return {name: _from_database(name, list(column)) for name, column in zip(_NAMES, columns, strict=True)}


def _from_database(name: str, column: list[Any]) -> Any:
    if name in _TEXT:
        return texts(column)
    if name in _DAY:
        blank = np.iinfo(np.int64).min  # what NaT is inside
        return np.array([blank if d is None else d for d in column], dtype=np.int64).astype("datetime64[D]")
    if name in _CODE:
        return np.array(column, dtype=np.int8)
    return np.array(column, dtype=np.int64 if name in _WHOLE else np.float64)


def _record(row: Any) -> SaleRecord:
    return SaleRecord(
        row.import_id,
        row.row,
        row.title,
        row.brand,
        row.category,
        name_of(row.condition),
        row.quantity,
        row.tag_each,
        row.sold_price,
        _date(row.listed_on),
        _date(row.sold_on),
    )


def _date(days: int | None) -> dt.date | None:
    return None if days is None else _EPOCH + dt.timedelta(days=days)
