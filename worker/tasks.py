"""The only task."""

from celery import Celery

from models.services.do_next_job import do_next_job
from models.store.states import Queue
from worker.app import WAKE
from worker.process import require_held


def add_task(app: Celery) -> None:
    """Teach the application to hear a wake-up."""

    @app.task(name=WAKE)
    def work(queue: str) -> None:
        """A wake-up carries no job: claim the next one of this queue and do it.  Claiming nothing is normal."""
        store, publish = require_held()
        do_next_job(store, Queue(queue), publish)
