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
from models.store.queries.claims import LEASE_MS, MOST_ATTEMPTS, Claims
from models.store.queries.evaluations import Evaluations
from models.store.queries.imports import Imports
from models.store.queries.jobs import Jobs
from models.store.queries.lines import LinesQueries
from models.store.queries.lots import Lots
from models.store.queries.model_versions import ModelVersions
from models.store.queries.people import People
from models.store.queries.sales import SalesQueries
from models.store.queries.settings import ShopSettingsQueries, Sources
from models.store.queries.shops import Shops
from models.store.queries.uploads import Uploads
from models.store.states import Queue
from models.values.errors import Rejected

Publish = Callable[[Collection[Queue]], Any]

TRANSIENT: tuple[type[Exception], ...] = (
    OperationalError,
    InterfaceError,
    NoConnectionFree,
)  # worth another attempt: busy, gone for a moment, full

__all__ = ["MOST_ATTEMPTS", "TRANSIENT", "Publish", "Store", "UnitOfWork", "says_disk_full"]

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
    def imports(self) -> Imports:
        """Files of sold history."""
        return Imports(self._connection)

    @cached_property
    def sales(self) -> SalesQueries:
        """Sold history."""
        return SalesQueries(self._connection)

    @cached_property
    def models(self) -> ModelVersions:
        """Model versions."""
        return ModelVersions(self._connection)

    @cached_property
    def lots(self) -> Lots:
        """Lots."""
        return Lots(self._connection)

    @cached_property
    def lines(self) -> LinesQueries:
        """Lines of manifests."""
        return LinesQueries(self._connection)

    @cached_property
    def evaluations(self) -> Evaluations:
        """Evaluations and their lines."""
        return Evaluations(self._connection)

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
        with _foreign_values_refused(), self._engine.connect() as plain:
            connection = plain.execution_options(**{WRITES: True})
            with connection.begin():
                work = UnitOfWork(connection, self._lease_ms)
                yield work
        if publish is not None and work.woken:
            _wake(publish, work.woken)

    @contextmanager
    def read(self) -> Iterator[UnitOfWork]:
        """A transaction that changes nothing."""
        with _foreign_values_refused(), self._engine.connect() as connection, connection.begin() as transaction:
            yield UnitOfWork(connection, self._lease_ms)
            transaction.rollback()

    def close(self) -> None:
        """Let every connection go."""
        self._engine.dispose()

    def unreachable_because(self) -> str | None:
        """Why the database does not answer, None if it does."""
        try:
            with self._engine.connect() as connection:
                connection.execute(sa.text("SELECT 1"))
        except DBAPIError as error:
            return str(error.orig)
        return None

    def migration_missing(self) -> bool:
        """True if the tables are not up to date."""
        with self._engine.connect() as connection:
            return behind(connection)


@contextmanager
def _foreign_values_refused() -> Iterator[None]:
    """A NUL in an id, a number beyond the column: what was asked is wrong, not the service."""
    try:
        yield
    except (DataError, OverflowError) as error:
        raise Rejected("This holds a value that can neither be stored nor looked for.") from error


def says_disk_full(error: Exception) -> bool:
    """True if the database has no room left."""
    said = str(error).lower()
    return "disk is full" in said or "no space left" in said or "could not extend file" in said


def _wake(publish: Publish, queues: Collection[Queue]) -> None:
    """The work is committed: whatever happens now is not the user's error, the sweeper finds the job anyway."""
    try:
        publish(queues)
    except Exception:
        _log.warning("could not wake %s; the sweeper will", ", ".join(sorted(queues)), exc_info=True)
