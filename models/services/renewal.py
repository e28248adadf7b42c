"""Keep a job's lease while its body computes: a thread of the same process, so that it dies with the work."""

import logging
import threading
from collections.abc import Iterator
from contextlib import contextmanager

from models.services.running import Running
from models.store.unit_of_work import LEASE_MS, TRANSIENT, Store
from models.values.errors import LeaseLost

RENEWALS_A_LEASE = 3
RENEW_SECONDS = LEASE_MS / 1000 / RENEWALS_A_LEASE

_log = logging.getLogger(__name__)


@contextmanager
def renewed(store: Store, running: Running, every_seconds: float = RENEW_SECONDS) -> Iterator[None]:
    """Renew until the block ends; what a renewal hears stands in `running.lost`."""
    over = threading.Event()
    thread = threading.Thread(target=_renew, args=(store, running, over, every_seconds), name="lease", daemon=True)
    thread.start()
    try:
        yield
    finally:
        over.set()
        thread.join()


def _renew(store: Store, running: Running, over: threading.Event, every_seconds: float) -> None:
    while not over.wait(every_seconds) and running.lost is None:
        try:
            with store.write() as work:
                if work.claims.renew(running.job):
                    running.lost = "cancelled"
        except LeaseLost:
            if not over.is_set():  # else the body has just ended the job itself
                running.lost = "lease"
        except TRANSIENT:  # the lease lasts three renewals: the next one may do
            _log.warning("lease of job %s not renewed", running.job.id, exc_info=True)
