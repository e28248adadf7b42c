"""The database of this command, closed when it is done."""

from collections.abc import Iterator
from contextlib import contextmanager

from models.services.environment import Environment
from models.services.migrate import migrate
from models.store.unit_of_work import Store
from models.values.errors import Rejected


@contextmanager
def own_store(environment: Environment) -> Iterator[Store]:
    """The store of an environment; Rejected if its address is none."""
    try:
        store = Store(environment.database)
    except Exception as error:  # whatever the driver makes of it, the address is what a person can change
        raise Rejected(f"LOTWRIGHT_DATABASE_URL cannot be used: {error}") from error
    try:
        yield store
    finally:
        store.close()


@contextmanager
def ready_store(environment: Environment) -> Iterator[Store]:
    """The same with its tables brought up to date; Rejected if the database does not answer."""
    with own_store(environment) as store:
        reason = store.unreachable_because()
        if reason:
            raise Rejected(f"The database does not answer: {' '.join(reason.split())}")
        migrate(environment)
        yield store
