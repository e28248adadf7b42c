"""Where does the next page begin?  After the last row's sort values, never after so many rows: rows come and go."""

import base64
import json
from collections.abc import Callable, Sequence
from typing import Any, TypeVar

import sqlalchemy as sa

from models.store.records import Page
from models.values.errors import Rejected

MOST = 500
R = TypeVar("R")


def limited(limit: int) -> int:
    """The limit, or Rejected."""
    if not 1 <= limit <= MOST:
        raise Rejected(f"The limit must be from 1 to {MOST}.")
    return limit


def cursor_of(values: Sequence[Any]) -> str:
    """An opaque cursor."""
    return base64.urlsafe_b64encode(json.dumps(list(values)).encode()).decode().rstrip("=")


def read_cursor(cursor: str, types: Sequence[type]) -> list[Any]:
    """What `cursor_of` was given; Rejected if it was not made by it."""
    try:
        values = json.loads(base64.urlsafe_b64decode(cursor + "=" * (-len(cursor) % 4)))
    except ValueError as error:
        raise Rejected("This cursor is not one of ours.") from error
    if not isinstance(values, list) or len(values) != len(types):
        raise Rejected("This cursor is not one of ours.")
    if not all(_fits(value, kind) for value, kind in zip(values, types, strict=True)):
        raise Rejected("This cursor is not one of ours.")
    return values


def _fits(value: Any, kind: type) -> bool:
    if isinstance(value, int) and not -(2**63) <= value < 2**63:
        return False
    return kind is object or type(value) is kind


def newest_first(query: sa.Select[Any], table: sa.FromClause, cursor: str | None, limit: int) -> sa.Select[Any]:
    """The query by falling creation time, one row more than the page holds."""
    if cursor is not None:
        created_at, row_id = read_cursor(cursor, (int, str))
        query = query.where(sa.tuple_(table.c.created_at, table.c.id) < sa.tuple_(sa.literal(created_at), row_id))
    return query.order_by(table.c.created_at.desc(), table.c.id.desc()).limit(limited(limit) + 1)


def page_of(
    rows: Sequence[Any], limit: int, key: Callable[[Any], Sequence[Any]], record: Callable[[Any], R]
) -> Page[R]:
    """A page from one row more than it holds."""
    more = len(rows) > limit
    rows = rows[:limit]
    return Page(tuple(record(row) for row in rows), cursor_of(key(rows[-1])) if more else None)


def newest_page(rows: Sequence[Any], limit: int, record: Callable[[Any], R]) -> Page[R]:
    """A page of a `newest_first` query; its rows carry created_at and id."""
    return page_of(rows, limit, lambda row: (row.created_at, row.id), record)
