"""What one working process holds.  Made after the fork: no database or queue connection crosses it."""

import os
import threading
from dataclasses import dataclass
from typing import Any

from celery.signals import worker_process_init
from kombu.transport.sqlalchemy import Transport as SqlTransport

from models.services.environment import Environment
from models.store.unit_of_work import LEASE_MS, Store
from worker.publish import Publisher

_PARENT_LOOK_SECONDS = 1.0


@dataclass
class Held:
    """`store` and `publish` are made after the fork, the rest is set before it."""

    environment: Environment | None = None
    lease_ms: int = LEASE_MS
    stopping: bool = False
    store: Store | None = None
    publish: Publisher | None = None


held = Held()


def require_held() -> tuple[Store, Publisher]:
    """The store and the publisher of this process."""
    if held.store is None or held.publish is None:
        if held.environment is None:
            raise RuntimeError("this process was not started as a worker")
        held.store, held.publish = Store(held.environment.database, held.lease_ms), Publisher(held.environment.broker)
    return held.store, held.publish


@worker_process_init.connect
def _begin(**_: Any) -> None:
    """Connections do not cross a fork.  A killed parent cannot stop its child: the child looks whether it is there."""
    held.store = held.publish = None
    for engine, _session in SqlTransport.Channel._engines.values():
        engine.dispose(close=False)  # the parent goes on using these connections
    SqlTransport.Channel._engines.clear()
    threading.Thread(target=_leave_with_parent, args=(os.getppid(),), name="parent", daemon=True).start()


def _leave_with_parent(parent: int) -> None:
    pause = threading.Event()
    while os.getppid() == parent:
        pause.wait(_PARENT_LOOK_SECONDS)
    os._exit(1)
