"""Sales: kept once, read back exactly as the intake gave them."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import fields
from typing import Any

import numpy as np
import sqlalchemy as sa
from sqlalchemy.dialects import postgresql, sqlite

from models.store.paging import limited, page_of, read_cursor
from models.store.queries.fingerprints import Fingerprints
from models.store.records import Page, SaleRecord, ShopId
from models.store.tables.sales import sale, sales_import
from models.values.arrays import texts
from models.values.conditions import name_of
from models.values.sales import Sales

_NAMES = tuple(field.name for field in fields(Sales))
_TEXT = {column.name for column in sale.c if isinstance(column.type, sa.Text)}
_DAY = {"listed_on", "first_listed_on", "sold_on"}
_CODE = {"condition", "sourced"}
_WHOLE = {"row", "quantity"}
_BATCH = 5_000
_EPOCH = dt.date(1970, 1, 1)


class SalesQueries:
    """Queries over `sale`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def replace(self, shop: ShopId, import_id: str, sales: Sales) -> int:
        """Make these the import's sales, but for those the shop has from other imports; how many are its own."""
        mine = sa.and_(sale.c.shop_id == shop, sale.c.import_id == import_id)
        self._connection.execute(sale.delete().where(mine))
        marks, insert = Fingerprints(), self._insert_new()
        for start in range(0, len(sales), _BATCH):
            part = sales.take(np.arange(start, min(start + _BATCH, len(sales))))
            columns = {name: _to_database(name, getattr(part, name)) for name in _NAMES}
            columns["fingerprint"] = marks.of(part)
            belongs = {"shop_id": shop, "import_id": import_id}
            rows = zip(*columns.values(), strict=True)
            self._connection.execute(insert, [dict(zip(columns, row, strict=True)) | belongs for row in rows])
        return self._connection.execute(sa.select(sa.func.count()).select_from(sale).where(mine)).scalar_one()

    def load(self, shop: ShopId, import_ids: tuple[str, ...]) -> Sales:
        """The sales of these imports in the order of imports and rows."""
        query = sa.select(*(sale.c[name] for name in _NAMES)).join(sales_import, sales_import.c.id == sale.c.import_id)
        query = query.where(sale.c.shop_id == shop, sale.c.import_id.in_(import_ids))
        query = query.order_by(sales_import.c.number, sale.c.row).execution_options(yield_per=_BATCH)
        parts = [_columns(rows) for rows in self._connection.execute(query).partitions()] or [_columns([])]
        return Sales(**{name: np.concatenate([part[name] for part in parts]) for name in _NAMES})

    def count(self, shop: ShopId) -> int:
        """Rows of sold history."""
        query = sa.select(sa.func.count()).select_from(sale).where(sale.c.shop_id == shop)
        return self._connection.execute(query).scalar_one()

    def page(self, shop: ShopId, limit: int, cursor: str | None) -> Page[SaleRecord]:
        """Sales in the order of imports and rows."""
        query = sa.select(sale, sales_import.c.number).join(sales_import, sales_import.c.id == sale.c.import_id)
        query = query.where(sale.c.shop_id == shop)
        if cursor is not None:
            number, row = read_cursor(cursor, (int, int))
            query = query.where(sa.tuple_(sales_import.c.number, sale.c.row) > sa.tuple_(sa.literal(number), row))
        query = query.order_by(sales_import.c.number, sale.c.row).limit(limited(limit) + 1)
        return page_of(self._connection.execute(query).all(), limit, lambda row: (row.number, row.row), _record)

    def _insert_new(self) -> Any:
        """An insert that passes over fingerprints the shop has; one spelling, two dialects."""
        dialect = postgresql if self._connection.dialect.name == "postgresql" else sqlite
        return dialect.insert(sale).on_conflict_do_nothing(index_elements=["shop_id", "fingerprint"])


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
