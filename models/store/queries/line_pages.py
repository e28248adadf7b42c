"""Pages of lines, sorted by any column: blanks last, equal values by line number."""

from collections.abc import Callable
from typing import Any, TypeVar

import sqlalchemy as sa

from models.store.paging import limited, page_of, read_cursor
from models.store.queries.line_columns import NUMBERS, filtered, sort_column
from models.store.records import Page
from models.values.errors import Rejected

R = TypeVar("R")


def line_page(
    connection: sa.Connection,
    table: sa.Table,
    mine: sa.ColumnElement[bool],
    asked: tuple[str, str, int, str | None],
    record: Callable[[Any], R],
) -> Page[R]:
    """One page; `asked` is sort, filter, limit, cursor."""
    sort, words, limit, cursor = asked
    column, falling = sort_column(table, sort)
    query = sa.select(table).where(mine, *filtered(table, words))
    if cursor is not None:
        query = query.where(_after(table, column, falling, cursor))
    order = column.desc() if falling else column.asc()
    query = query.order_by(column.is_(None), order, table.c.no).limit(limited(limit) + 1)
    return page_of(connection.execute(query).all(), limit, lambda row: (sort, row._mapping[column], row.no), record)


def _after(table: sa.Table, column: sa.Column[Any], falling: bool, cursor: str) -> sa.ColumnElement[bool]:
    """What follows the cursor's row in this order."""
    sort, value, no = read_cursor(cursor, (str, object, int))
    if sort != ("-" if falling else "") + column.name:
        raise Rejected("This cursor belongs to another order of the lines.")
    number = column.name in NUMBERS
    if value is not None and (isinstance(value, bool) or isinstance(value, int | float) is not number):
        raise Rejected("This cursor is not one of ours.")
    if value is None:
        return sa.and_(column.is_(None), table.c.no > no)
    further = column < value if falling else column > value
    return sa.or_(further, column.is_(None), sa.and_(column == value, table.c.no > no))
