"""Every worker sweeps: jobs of dead workers are queued again, unheard wake-ups repeated, old rows forgotten.

The broker recovers nothing: a killed worker's message is gone, or comes back after minutes.  The database knows.
"""

import logging
import sqlite3
from collections.abc import Callable
from contextlib import closing
from typing import Any

from celery import bootsteps

from models.services.environment import Environment, load_environment
from models.services.prune import prune
from models.services.recover_jobs import recover_jobs
from models.services.told_once import ToldOnce
from models.store.unit_of_work import Store
from models.values.errors import DiskFull
from worker.process import held
from worker.publish import Publisher

SWEEP_SECONDS = 5.0
PRUNE_SECONDS = 3600.0

Task = Callable[[Environment, Store, Publisher], None]

_log = logging.getLogger(__name__)


class Sweeper(bootsteps.StartStopStep):
    """A step of the worker's start; runs in the parent, which does no jobs."""

    requires = ("celery.worker.components:Timer",)

    def __init__(self, parent: Any, **options: Any) -> None:
        super().__init__(parent, **options)
        self._entries: list[Any] = []
        self._environment = held.environment or load_environment()
        self._publish = Publisher(self._environment.broker)
        self._trouble = ToldOnce(_log)

    def start(self, parent: Any) -> None:
        """Begin to sweep."""
        self._entries = [
            parent.timer.call_repeatedly(SWEEP_SECONDS, self._safely, (sweep,)),
            parent.timer.call_repeatedly(PRUNE_SECONDS, self._safely, (forget,)),
        ]

    def stop(self, parent: Any) -> None:
        """Sweep no more."""
        for entry in self._entries:
            entry.cancel()
        self._entries = []

    def _safely(self, task: Task) -> None:
        """A store is opened for each sweep, so that no connection is open when the pool forks a new child."""
        store = Store(self._environment.database)
        try:
            task(self._environment, store, self._publish)
            self._trouble.over()
        except DiskFull as full:
            self._trouble.say(f"Jobs cannot be looked after. {full.message}")
        except Exception:
            _log.warning("a sweep failed; the next one comes", exc_info=True)
        finally:
            store.close()


def sweep(environment: Environment, store: Store, publish: Publisher) -> None:
    """One sweep."""
    recover_jobs(store, publish)
    if environment.embedded:
        _forget_heard(environment)


def forget(environment: Environment, store: Store, _: Publisher) -> None:
    """Delete what is only kept for a while."""
    with store.write() as work:
        prune(work, environment)


def _forget_heard(environment: Environment) -> None:
    """The queue's file keeps every delivered message for ever unless someone deletes them."""
    try:
        with closing(sqlite3.connect(environment.broker_file, timeout=2.0)) as connection, connection:
            connection.execute("DELETE FROM kombu_message WHERE visible = 0")
    except sqlite3.OperationalError as error:
        if error.sqlite_errorname == "SQLITE_FULL":
            raise DiskFull from error
        raise
