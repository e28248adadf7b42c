"""One transaction as one object: open, do, commit, then wake the queues that got work."""

import logging
from collections.abc import Callable, Collection, Iterator
from contextlib import contextmanager
from functools import cached_property
from typing import Any

import sqlalchemy as sa
from sqlalchemy.exc import DataError, DBAPIError, InterfaceError, OperationalError
from sqlalchemy.exc import TimeoutError as NoConnectionFree

from models.store.engine import WRITES, open_engine
from models.store.migrations.run import behind
from models.store.queries.answers import Answers
from models.store.queries.ceiling_stamps import CeilingStamps
from models.store.queries.claims import LEASE_MS, MOST_ATTEMPTS, Claims
from models.store.queries.drawn import Drawn
from models.store.queries.evaluations import Evaluations
from models.store.queries.imports import Imports
from models.store.queries.jobs import Jobs
from models.store.queries.line_edits import LineEdits
from models.store.queries.lines import LinesQueries
from models.store.queries.lots import Lots
from models.store.queries.model_versions import ModelVersions
from models.store.queries.parts import Parts
from models.store.queries.people import People
from models.store.queries.remembered_columns import RememberedColumns
from models.store.queries.sales import SalesQueries
from models.store.queries.settings import ShopSettingsQueries, Sources
from models.store.queries.shops import Shops
from models.store.queries.uploads import Uploads
from models.store.queries.work_log import WorkLogQueries
from models.store.room import says_disk_full, sqlite_file, unwritable_because
from models.store.states import Queue
from models.values.errors import DiskFull, Rejected

Publish = Callable[[Collection[Queue]], Any]

TRANSIENT: tuple[type[Exception], ...] = (
    OperationalError,
    InterfaceError,
    NoConnectionFree,
    DiskFull,
)  # worth another attempt: busy, gone for a moment, full

__all__ = ["LEASE_MS", "MOST_ATTEMPTS", "TRANSIENT", "Publish", "Store", "UnitOfWork"]

_log = logging.getLogger(__name__)


class UnitOfWork:
    """The queries of one transaction; whoever opened it commits."""

    def __init__(self, connection: sa.Connection, lease_ms: int = LEASE_MS) -> None:
        self._connection = connection
        self._lease_ms = lease_ms
        self.woken: set[Queue] = set()

    @cached_property
    def shops(self) -> Shops:
        """Shops."""
        return Shops(self._connection)

    @cached_property
    def people(self) -> People:
        """Users and what they show at the door."""
        return People(self._connection)

    @cached_property
    def settings(self) -> ShopSettingsQueries:
        """Settings of shops."""
        return ShopSettingsQueries(self._connection)

    @cached_property
    def sources(self) -> Sources:
        """Who offers lots."""
        return Sources(self._connection)

    @cached_property
    def uploads(self) -> Uploads:
        """Files."""
        return Uploads(self._connection)

    @cached_property
    def remembered_columns(self) -> RememberedColumns:
        """What sellers said of files with the same headers."""
        return RememberedColumns(self._connection)

    @cached_property
    def imports(self) -> Imports:
        """Files of sold history."""
        return Imports(self._connection)

    @cached_property
    def parts(self) -> Parts:
        """What each file of sold history said by itself."""
        return Parts(self._connection)

    @cached_property
    def sales(self) -> SalesQueries:
        """Sold history."""
        return SalesQueries(self._connection)

    @cached_property
    def models(self) -> ModelVersions:
        """Model versions."""
        return ModelVersions(self._connection)

    @cached_property
    def work_log(self) -> WorkLogQueries:
        """Totals of listing work."""
        return WorkLogQueries(self._connection)

    @cached_property
    def lots(self) -> Lots:
        """Lots."""
        return Lots(self._connection)

    @cached_property
    def lines(self) -> LinesQueries:
        """Lines of manifests."""
        return LinesQueries(self._connection)

    @cached_property
    def line_edits(self) -> LineEdits:
        """What sellers typed in for single lines."""
        return LineEdits(self._connection)

    @cached_property
    def ceilings(self) -> CeilingStamps:
        """Ceilings that sellers fixed."""
        return CeilingStamps(self._connection)

    @cached_property
    def evaluations(self) -> Evaluations:
        """Evaluations and their lines."""
        return Evaluations(self._connection)

    @cached_property
    def drawn(self) -> Drawn:
        """What evaluations of several lots have in common."""
        return Drawn(self._connection)

    @cached_property
    def jobs(self) -> Jobs:
        """Jobs as shops see them."""
        return Jobs(self._connection, self.woken)

    @cached_property
    def claims(self) -> Claims:
        """Jobs as workers see them."""
        return Claims(self._connection, self.woken, self._lease_ms)

    @cached_property
    def answers(self) -> Answers:
        """Answers for requests that come twice."""
        return Answers(self._connection)


class Store:
    """A database; one a process.  Its engine must not cross a fork: call `close` in the child."""

    def __init__(self, url: str, lease_ms: int = LEASE_MS) -> None:
        self._engine = open_engine(url)
        self._lease_ms = lease_ms

    @property
    def kind(self) -> str:
        """The database's kind: sqlite or postgresql."""
        return self._engine.dialect.name

    @contextmanager
    def write(self, publish: Publish | None = None) -> Iterator[UnitOfWork]:
        """A transaction that commits at the end, or leaves no trace; then wakes the queues that got work."""
        with _told_plainly(), self._engine.connect() as plain:
            connection = plain.execution_options(**{WRITES: True})
            with connection.begin():
                work = UnitOfWork(connection, self._lease_ms)
                yield work
        if publish is not None and work.woken:
            _wake(publish, work.woken)

    @contextmanager
    def read(self) -> Iterator[UnitOfWork]:
        """A transaction that changes nothing."""
        with _told_plainly(), self._engine.connect() as connection, connection.begin() as transaction:
            yield UnitOfWork(connection, self._lease_ms)
            transaction.rollback()

    def close(self) -> None:
        """Let every connection go."""
        self._engine.dispose()

    def missing_because(self) -> str | None:
        """Why there is no database yet, None if there is one: looking into it would make SQLite's file."""
        file = sqlite_file(self._engine)
        return None if file is None or file.exists() else f"{file} is not there yet"

    def unreachable_because(self) -> str | None:
        """Why the database does not answer, None if it does."""
        try:
            with self._engine.connect() as connection:
                connection.execute(sa.text("SELECT 1"))
        except DBAPIError as error:
            return str(error.orig)
        return None

    def unwritable_because(self) -> str | None:
        """Why nothing can be written, None if it can; a reachable database is asked."""
        return unwritable_because(self._engine)

    def migration_missing(self) -> bool:
        """True if the tables are not up to date."""
        with self._engine.connect() as connection:
            return behind(connection)


@contextmanager
def _told_plainly() -> Iterator[None]:
    """What a person can act on: a NUL in an id, a number beyond the column, a full disk; else the driver's error."""
    try:
        yield
    except (DataError, OverflowError) as error:
        raise Rejected("This holds a value that can neither be stored nor looked for.") from error
    except DBAPIError as error:
        if says_disk_full(error):
            raise DiskFull from error
        raise


def _wake(publish: Publish, queues: Collection[Queue]) -> None:
    """The work is committed: whatever happens now is not the user's error, the sweeper finds the job anyway."""
    try:
        publish(queues)
    except Exception:
        _log.warning("could not wake %s; the sweeper will", ", ".join(sorted(queues)), exc_info=True)
