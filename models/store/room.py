"""Is there room to write?  How both databases say that there is none, and a cheap look beforehand."""

import tempfile
from pathlib import Path

import sqlalchemy as sa
from sqlalchemy.engine import Engine
from sqlalchemy.exc import DBAPIError

_PROBE_BYTES = 64 * 1024  # some pages: what the smallest job writes
_SQLITE = (
    "SQLITE_FULL",
    "SQLITE_IOERR_SHMSIZE",
    "SQLITE_IOERR_SHMOPEN",
)  # the last two: its index of the log finds none
_POSTGRESQL = "53100"  # disk_full


def says_disk_full(error: DBAPIError) -> bool:
    """True if the database has no room left."""
    told = error.orig
    return getattr(told, "sqlite_errorname", "") in _SQLITE or getattr(told, "sqlstate", "") == _POSTGRESQL


def sqlite_file(engine: Engine) -> Path | None:
    """The database's file, None where it is a server."""
    name = engine.url.database
    return Path(name) if engine.dialect.name == "sqlite" and name else None


def unwritable_because(engine: Engine) -> str | None:
    """Why nothing can be written, None if it can.  Beside SQLite's file a nameless one is written, never committed
    rows: those would cost everybody who asks a wait for the disk.  A server tells whether it takes writes at all.
    """
    file = sqlite_file(engine)
    if file is None:
        return _read_only_server(engine)
    try:
        with tempfile.TemporaryFile(dir=file.parent, buffering=0) as probe:
            written = probe.write(b"\0" * _PROBE_BYTES)
    except OSError as error:
        return f"cannot be written: {error.strerror}"
    return None if written == _PROBE_BYTES else "cannot be written: no room is left"


def _read_only_server(engine: Engine) -> str | None:
    with engine.connect() as connection:
        state = connection.execute(sa.text("SHOW transaction_read_only")).scalar_one()
    return "takes no writes" if state == "on" else None
