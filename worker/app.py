"""The Celery application: a bell, nothing more.  No results, no remote control, no gossip, no mingle, no beat."""

import logging
import warnings
from typing import Any

import kombu
from celery import Celery
from kombu.transport.sqlalchemy import Transport as SqlTransport

from models.store.states import Queue

WAKE = "work"  # the name of the only task; its argument is the queue it came over

# An idle worker looks into the queue's file so often [s].  It must be this class attribute: the same key among the
# transport options is handed to create_engine, which refuses it; the default of 1 s is 1 s of waiting for every job.
SqlTransport.polling_interval = 0.1

_VISIBILITY_SECONDS = 600  # a wake-up taken by a worker that died is heard again; the sweeper is quicker

_log = logging.getLogger(__name__)

_COMMON: dict[str, Any] = {
    "accept_content": ["json"],
    "task_ignore_result": True,
    "task_acks_late": True,
    "task_default_queue": Queue.QUICK.value,
    "worker_prefetch_multiplier": 1,
    "worker_enable_remote_control": False,
    "worker_cancel_long_running_tasks_on_connection_loss": False,  # the lease decides who works, not the bell
    "worker_hijack_root_logger": False,
    "broker_connection_retry_on_startup": True,
    "broker_heartbeat": 0,
}


def wake_app(broker: str, answer_seconds: float | None = None) -> Celery:
    """An application over one queue address; `answer_seconds` bounds every wait for Redis (for publishing)."""
    app = Celery("lotwright", broker=broker, set_as_current=False, fixups=[])
    app.conf.update(_COMMON)
    if broker.startswith(("redis", "rediss")):
        options: dict[str, Any] = {"visibility_timeout": _VISIBILITY_SECONDS, "socket_connect_timeout": 2.0}
        if answer_seconds is not None:
            # Without max_retries the transport sleeps 2 s, then 4 s, before it says that nobody answers.
            options |= {"socket_timeout": answer_seconds, "socket_connect_timeout": answer_seconds, "max_retries": 0}
        app.conf.update(broker_transport_options=options)
    elif broker.startswith("sqla+"):
        _prepare_file(app)
    return app


def close_app(app: Celery) -> None:
    """Let every connection to the queue go."""
    app.close()
    for engine, _ in SqlTransport.Channel._engines.values():
        engine.dispose()


def _prepare_file(app: Celery) -> None:
    """Make the file's tables now, by one process: two that meet there first would make them twice.

    SQLAlchemy 2.1 warns once of a loader the transport names; where warnings are errors its mapping would stay broken.
    """
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", message=".*noload.*", category=DeprecationWarning)
        try:
            with app.connection_for_write() as connection:
                kombu.Queue(Queue.QUICK.value, channel=connection.default_channel).queue_declare()
        except Exception as error:
            _log.warning("the queue's file cannot be opened (%s)", error)
