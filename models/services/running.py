"""A job's handle on itself while it runs: tell progress, hear of cancelling, end in one fenced transaction."""

from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from typing import Literal

from models.services.clock import steady_seconds
from models.store.records import ClaimedJob
from models.store.states import JobState
from models.store.unit_of_work import Publish, Store, UnitOfWork
from models.values.errors import Cancelled, LeaseLost

SECONDS_BETWEEN_WRITES = 0.5


class Running:
    """What a job body is given; used by the body's own thread, but for `lost`."""

    def __init__(self, store: Store, job: ClaimedJob, publish: Publish | None) -> None:
        self.job = job
        self._store = store
        self._publish = publish
        self._last_write = float("-inf")
        self.lost: Literal["cancelled", "lease"] | None = None  # set by the thread that renews the lease

    def progress(self, share: float, step: str) -> None:
        """Tell how far the job is, a share 0..1; raises Cancelled or LeaseLost.  Written at most twice a second."""
        self._raise_if_lost()
        now = steady_seconds()
        if now - self._last_write < SECONDS_BETWEEN_WRITES:
            return
        self._last_write = now
        with self._store.write() as work:
            asked_to_stop = work.claims.progress(self.job, min(max(share, 0.0), 1.0), step)
        if asked_to_stop:
            raise Cancelled("Cancelled.")

    def read(self) -> AbstractContextManager[UnitOfWork]:
        """A transaction that changes nothing."""
        return self._store.read()

    @contextmanager
    def save(self) -> Iterator[UnitOfWork]:
        """A fenced transaction on the way: what it writes must come out the same when the job runs again."""
        self._raise_if_lost()
        with self._store.write(self._publish) as work:
            work.claims.hold(self.job)
            yield work

    @contextmanager
    def finish(self) -> Iterator[UnitOfWork]:
        """The end: everything saved inside becomes true together with the job's `done`, or not at all."""
        with self.save() as work:
            yield work
            work.claims.end(self.job, JobState.DONE, None)

    def _raise_if_lost(self) -> None:
        if self.lost == "cancelled":
            raise Cancelled("Cancelled.")
        if self.lost == "lease":
            raise LeaseLost("Another worker holds this job now.")
