"""The only task."""

from celery import Celery

from models.services.do_next_job import do_next_job
from models.services.renewal import RENEWALS_A_LEASE
from models.store.states import Queue
from worker.app import WAKE
from worker.process import held, require_held


def add_task(app: Celery) -> None:
    """Teach the application to hear a wake-up."""

    @app.task(name=WAKE)
    def work(queue: str) -> None:
        """A wake-up carries no job: claim the next one of this queue and do it.  Claiming nothing is normal."""
        if held.stopping:
            return
        store, publish = require_held()
        renew_seconds = held.lease_ms / 1000 / RENEWALS_A_LEASE
        do_next_job(store, Queue(queue), publish, renew_seconds=renew_seconds)
