"""What time is it by the database's clock?  One expression for both databases, so that hosts need not agree."""

import datetime as dt
from typing import Any

import sqlalchemy as sa
from sqlalchemy.ext.compiler import compiles
from sqlalchemy.sql.expression import FunctionElement


class now_ms(FunctionElement[int]):  # noqa: N801 - reads as the SQL function it is
    """Epoch milliseconds UTC at the moment the statement runs, not when its transaction began."""

    type = sa.BigInteger()
    inherit_cache = True


@compiles(now_ms, "postgresql")
def _postgresql(element: Any, compiler: Any, **options: Any) -> str:
    return "CAST(extract(epoch FROM clock_timestamp()) * 1000 AS BIGINT)"


@compiles(now_ms, "sqlite")
def _sqlite(element: Any, compiler: Any, **options: Any) -> str:
    return "CAST((julianday('now') - 2440587.5) * 86400000 AS INTEGER)"


def moment(millis: int) -> dt.datetime:
    """Epoch milliseconds as an aware UTC time."""
    return dt.datetime.fromtimestamp(millis / 1000, dt.UTC)


def optional_moment(millis: int | None) -> dt.datetime | None:
    """The same where a time may be missing."""
    return None if millis is None else moment(millis)
