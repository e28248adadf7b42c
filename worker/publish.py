"""Wake queues after a commit.  A failed wake-up is logged, never an error: the sweeper finds the job anyway."""

import logging
from collections.abc import Collection

import kombu

from models.store.states import Queue
from worker.app import WAKE, close_app, wake_app

_ANSWER_SECONDS = 2.0

_log = logging.getLogger(__name__)


class Publisher:
    """Callable given to `Store.write`; one a process, safe from any thread, made after a fork."""

    def __init__(self, broker: str) -> None:
        self._app = wake_app(broker, _ANSWER_SECONDS)

    def __call__(self, queues: Collection[Queue]) -> None:
        """Send one wake-up to each queue; raises nothing."""
        for queue in queues:
            try:
                self._app.send_task(WAKE, args=[queue.value], queue=queue.value, retry=False, ignore_result=True)
            except Exception as error:
                _log.warning("queue %s was not woken (%s); the sweeper will", queue.value, error)

    def answers(self) -> bool:
        """True if the queue can be reached, within a second or two."""
        try:
            with self._app.connection_for_write() as connection:
                kombu.Queue(Queue.QUICK.value, channel=connection.default_channel).queue_declare()
        except Exception as error:
            _log.warning("the queue does not answer (%s)", error)
            return False
        return True

    def close(self) -> None:
        """Let every connection go."""
        close_app(self._app)
