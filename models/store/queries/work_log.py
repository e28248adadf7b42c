"""Totals of listing work: added, listed, taken back."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from models.store.now import moment, now_ms
from models.store.paging import limited, page_of, read_cursor
from models.store.records import Page, ShopId
from models.store.tables.base import new_id
from models.store.tables.work_log import work_log
from models.store.work_log_record import WorkLogRecord
from models.values.errors import NotFound, Rejected


@dataclass(frozen=True)
class NewEntry:
    """What is kept; id and time are the store's."""

    on: dt.date
    items: int
    hours: float
    kind: str
    category: str
    note: str


class WorkLogQueries:
    """Queries over `work_log`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def add(self, shop: ShopId, new: NewEntry) -> WorkLogRecord:
        """Keep an entry."""
        values = {"id": new_id(), "shop_id": shop, **vars(new), "created_at": now_ms()}
        return _record(self._connection.execute(work_log.insert().values(**values).returning(*work_log.c)).one())

    def page(self, shop: ShopId, limit: int, cursor: str | None) -> Page[WorkLogRecord]:
        """Entries by their day, newest first."""
        query = sa.select(work_log).where(work_log.c.shop_id == shop)
        if cursor is not None:
            day, entry_id = read_cursor(cursor, (str, str))
            query = query.where(sa.tuple_(work_log.c.on, work_log.c.id) < sa.tuple_(sa.literal(_day(day)), entry_id))
        query = query.order_by(work_log.c.on.desc(), work_log.c.id.desc()).limit(limited(limit) + 1)
        rows = self._connection.execute(query).all()
        return page_of(rows, limit, lambda row: (row.on.isoformat(), row.id), _record)

    def ids(self, shop: ShopId) -> tuple[str, ...]:
        """Every entry, so that a job can name what it reads."""
        query = sa.select(work_log.c.id).where(work_log.c.shop_id == shop).order_by(work_log.c.id)
        return tuple(self._connection.execute(query).scalars())

    def load(self, shop: ShopId, ids: Sequence[str]) -> tuple[WorkLogRecord, ...]:
        """Those of the named entries that are still there, oldest first."""
        wanted = frozenset(ids)
        query = sa.select(work_log).where(work_log.c.shop_id == shop).order_by(work_log.c.on, work_log.c.id)
        return tuple(_record(row) for row in self._connection.execute(query) if row.id in wanted)

    def delete(self, shop: ShopId, entry_id: str) -> None:
        """Take an entry back; NotFound if the shop has none such."""
        query = work_log.delete().where(work_log.c.shop_id == shop, work_log.c.id == entry_id)
        if self._connection.execute(query).rowcount == 0:
            raise NotFound("There is no such entry in the work log.")


def _day(text: str) -> dt.date:
    try:
        return dt.date.fromisoformat(text)
    except ValueError as error:
        raise Rejected("This cursor is not one of ours.") from error


def _record(row: Any) -> WorkLogRecord:
    return WorkLogRecord(
        id=row.id,
        on=row.on,
        items=row.items,
        hours=row.hours,
        kind=row.kind,
        category=row.category,
        note=row.note,
        created_at=moment(row.created_at),
    )
