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
    """Data folder, database, migration and queue, each tried; nothing is changed and nothing made."""
    gone = store.missing_because() or store.unreachable_because()
    return (_folder(environment), _database(store, gone), _migration(store, gone), _broker(environment, broker_answers))


def _folder(environment: Environment) -> Finding:
    if not environment.data_dir.is_dir():
        return Finding("data folder", False, f"{environment.data_dir} is missing")
    open_to_others = " (others on this machine can look into it)" if environment.open_to_others else ""
    return Finding("data folder", True, f"{environment.data_dir}{open_to_others}")


def _database(store: Store, gone: str | None) -> Finding:
    reason = gone or store.unwritable_because()
    return Finding("database", reason is None, " ".join(reason.split()) if reason else store.kind)


def _migration(store: Store, gone: str | None) -> Finding:
    """Without a database there is nothing to look at; what to do is the same as for missing tables."""
    behind = gone is not None or store.migration_missing()
    return Finding("tables", not behind, "run `lotwright migrate`" if behind else "up to date")


def _broker(environment: Environment, broker_answers: Callable[[], bool]) -> Finding:
    if environment.embedded and not environment.broker_file.exists():
        return Finding("queue", environment.data_dir.is_dir(), "made when `lotwright serve` starts")
    good = broker_answers()
    return Finding("queue", good, "answers" if good else "does not answer; jobs wait until it does")
