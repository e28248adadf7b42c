"""Lines of manifests: kept as the intake gave them."""

from collections.abc import Mapping
from dataclasses import fields
from typing import Any

import numpy as np
import sqlalchemy as sa

from models.store.queries.line_pages import line_page
from models.store.records import Page, ShopId
from models.store.tables.lots import line
from models.values.arrays import texts
from models.values.conditions import name_of
from models.values.lines import Lines
from models.values.money import written

_NAMES = tuple(field.name for field in fields(Lines))
_TYPES: Mapping[str, Any] = {
    "no": np.int64, "row": np.int64, "quantity": np.int64, "condition": np.int8, "tag_each": np.float64,
    "weight_kg": np.float64, "assorted": np.bool_,
}  # fmt: skip


class LinesQueries:
    """Queries over `line`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def replace(self, shop: ShopId, lot_id: str, lines: Lines) -> None:
        """Make these the lot's lines."""
        self._connection.execute(line.delete().where(line.c.lot_id == lot_id, line.c.shop_id == shop))
        columns = {name: [_blank(value) for value in getattr(lines, name).tolist()] for name in _NAMES}
        rows = [
            {name: column[i] for name, column in columns.items()} | {"lot_id": lot_id, "shop_id": shop}
            for i in range(len(lines))
        ]
        if rows:
            self._connection.execute(line.insert(), rows)

    def load(self, shop: ShopId, lot_id: str) -> Lines:
        """The lot's lines in the manifest's order."""
        query = sa.select(*(line.c[name] for name in _NAMES)).where(line.c.lot_id == lot_id, line.c.shop_id == shop)
        rows = self._connection.execute(query.order_by(line.c.no)).all()
        columns = list(zip(*rows, strict=True)) if rows else [()] * len(_NAMES)
        return Lines(**{name: _column(name, list(column)) for name, column in zip(_NAMES, columns, strict=True)})

    def line(self, shop: ShopId, lot_id: str, no: int, currency: str) -> Mapping[str, Any]:
        """One line without estimates, as JSON."""
        mine = sa.and_(line.c.lot_id == lot_id, line.c.shop_id == shop, line.c.no == no)
        return _as_json(self._connection.execute(sa.select(line).where(mine)).one(), currency)

    def page(
        self, shop: ShopId, lot_id: str, currency: str, asked: tuple[str, str, int, str | None]
    ) -> Page[Mapping[str, Any]]:
        """Lines without estimates, as JSON; `asked` is sort, filter, limit, cursor."""
        mine = sa.and_(line.c.lot_id == lot_id, line.c.shop_id == shop)
        return line_page(self._connection, line, mine, asked, lambda row: _as_json(row, currency))


def _blank(value: Any) -> Any:
    return None if value != value else value  # NaN


def _column(name: str, values: list[Any]) -> Any:
    return np.array(values, dtype=_TYPES[name]) if name in _TYPES else texts(values)


def _as_json(row: Any, currency: str) -> Mapping[str, Any]:
    return {
        "no": row.no,
        "source_row": row.row,
        "description": row.description,
        "brand": row.brand,
        "category": row.category,
        "condition": name_of(row.condition),
        "condition_said": row.condition_said,
        "quantity": row.quantity,
        "tag_each": None if row.tag_each is None else written(row.tag_each, currency),
        "sku": row.sku,
        "gtin": row.gtin,
    }
