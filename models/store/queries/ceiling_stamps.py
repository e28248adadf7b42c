"""Ceilings that sellers fixed: added, never changed."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from models.store.now import moment, now_ms
from models.store.paging import limited, page_of, read_cursor
from models.store.records import CeilingStampRecord, Page, ShopId
from models.store.tables.lots import ceiling_stamp


@dataclass(frozen=True)
class NewStamp:
    """What is fixed; number and time are the store's."""

    amount: float  # [minor units]
    evaluation_number: int
    evaluation_ceiling: float  # [minor units]
    reason: str | None
    adds: Mapping[str, Any] | None
    fixed_by: str
    token: str | None


class CeilingStamps:
    """Queries over `ceiling_stamp`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def add(self, shop: ShopId, lot_id: str, new: NewStamp) -> CeilingStampRecord:
        """Stamp it with this moment; whoever asks holds the shop's lock, so that numbers follow each other."""
        last = sa.select(sa.func.coalesce(sa.func.max(ceiling_stamp.c.number), 0)).where(_of(shop, lot_id))
        where = {"shop_id": shop, "lot_id": lot_id, "number": self._connection.execute(last).scalar_one() + 1}
        query = ceiling_stamp.insert().values(**where, **vars(new), fixed_at=now_ms()).returning(*ceiling_stamp.c)
        return _record(self._connection.execute(query).one())

    def page(self, shop: ShopId, lot_id: str, limit: int, cursor: str | None) -> Page[CeilingStampRecord]:
        """Every stamp of a lot, newest first."""
        query = sa.select(ceiling_stamp).where(_of(shop, lot_id))
        if cursor is not None:
            query = query.where(ceiling_stamp.c.number < read_cursor(cursor, (int,))[0])
        rows = self._connection.execute(query.order_by(ceiling_stamp.c.number.desc()).limit(limited(limit) + 1)).all()
        return page_of(rows, limit, lambda row: (row.number,), _record)

    def get_last(self, shop: ShopId, lot_id: str) -> CeilingStampRecord | None:
        """The stamp that holds, None where the ceiling was never fixed."""
        query = sa.select(ceiling_stamp).where(_of(shop, lot_id)).order_by(ceiling_stamp.c.number.desc()).limit(1)
        row = self._connection.execute(query).one_or_none()
        return None if row is None else _record(row)


def _of(shop: ShopId, lot_id: str) -> sa.ColumnElement[bool]:
    return sa.and_(ceiling_stamp.c.shop_id == shop, ceiling_stamp.c.lot_id == lot_id)


def _record(row: Any) -> CeilingStampRecord:
    return CeilingStampRecord(
        number=row.number,
        amount=row.amount,
        evaluation_number=row.evaluation_number,
        evaluation_ceiling=row.evaluation_ceiling,
        reason=row.reason,
        adds=row.adds,
        fixed_by=row.fixed_by,
        token=row.token,
        fixed_at=moment(row.fixed_at),
    )
