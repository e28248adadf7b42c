"""Is everything in place?  For `lotwright check` and /readyz."""

from collections.abc import Callable
from dataclasses import dataclass

from models.services.environment import Environment
from models.store.unit_of_work import Store


@dataclass(frozen=True)
class Finding:
    """One thing looked at."""

    name: str
    good: bool
    says: str


def check(environment: Environment, store: Store, broker_answers: Callable[[], bool]) -> tuple[Finding, ...]:
    """Data folder, database, migration and queue, each tried; nothing is changed."""
    return (_folder(environment), _database(store), _migration(store), _broker(broker_answers))


def _folder(environment: Environment) -> Finding:
    good = environment.data_dir.is_dir()
    return Finding("data folder", good, str(environment.data_dir) if good else f"{environment.data_dir} is missing")


def _database(store: Store) -> Finding:
    reason = store.unreachable_because()
    return Finding("database", reason is None, reason or store.kind)


def _migration(store: Store) -> Finding:
    behind = store.migration_missing()
    return Finding("tables", not behind, "run `lotwright migrate`" if behind else "up to date")


def _broker(broker_answers: Callable[[], bool]) -> Finding:
    good = broker_answers()
    return Finding("queue", good, "answers" if good else "does not answer; jobs wait until it does")
