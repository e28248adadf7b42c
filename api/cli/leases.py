"""The leases of an embedded service: `serve` is alone on its folder, so it knows when nobody holds a job any more."""

import logging

from models.services.recover_jobs import release_leases
from models.store.states import Queue
from models.store.unit_of_work import Store
from worker.publish import Publisher

_log = logging.getLogger(__name__)


class Leases:
    """Ends them; what cannot be written is logged, for they run out by themselves."""

    def __init__(self, store: Store, publish: Publisher) -> None:
        self._store = store
        self._publish = publish

    def of_before(self) -> None:
        """Before any worker of ours: whatever an earlier `serve` left open is open to all, every queue is woken."""
        self._end(None, True)
        self._publish(tuple(Queue))

    def of_lost(self, queue: str) -> None:
        """A worker died by itself; a job that kills its workers comes to an end after some."""
        self._end(Queue(queue), True)

    def of_stopped(self) -> None:
        """We stopped every worker ourselves; that is no failure of a job."""
        self._end(None, False)

    def _end(self, queue: Queue | None, counted: bool) -> None:
        try:
            release_leases(self._store, self._publish, queue, counted)
        except Exception:
            _log.warning("jobs that were under way wait until their leases run out", exc_info=True)
