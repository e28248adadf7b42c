"""Who works on a job?  A claim is a lease by the database's clock plus an attempt number, the fence of every write.

These queries go over all shops: workers belong to none.
"""

from typing import Any

import sqlalchemy as sa

from models.store.now import now_ms
from models.store.records import ClaimedJob, ShopId
from models.store.states import JobKind, JobState, Queue
from models.store.tables.jobs import job
from models.values.errors import Cancelled, LeaseLost

LEASE_MS = 30_000
MOST_ATTEMPTS = 3
WAKE_AGAIN_MS = 10_000


class Claims:
    """Queries over `job` for workers and sweepers."""

    def __init__(self, connection: sa.Connection, woken: set[Queue], lease_ms: int = LEASE_MS) -> None:
        self._connection = connection
        self._woken = woken
        self._lease_ms = lease_ms

    def claim_next(self, queue: Queue) -> ClaimedJob | None:
        """Take the next job: of the shop with fewest running, backtests last, then the oldest.  None if nothing is due.

        One conditional UPDATE: SQLite writes one at a time, PostgreSQL passes over rows another worker is taking.
        """
        taken = {
            "state": JobState.RUNNING.value,
            "attempt": job.c.attempt + 1,
            "lease_until": now_ms() + self._lease_ms,
        }
        started = {"started_at": sa.func.coalesce(job.c.started_at, now_ms()), "progress": 0.0, "step": ""}
        query = job.update().where(job.c.id == _next_id(queue), job.c.state == JobState.QUEUED.value)
        row = self._connection.execute(query.values(**taken, **started).returning(job)).one_or_none()
        return None if row is None else _claimed(row)

    def renew(self, held: ClaimedJob) -> bool:
        """Keep the lease; True if the job was asked to stop.  LeaseLost if another attempt holds it."""
        return self._fenced(held, lease_until=now_ms() + self._lease_ms)

    def progress(self, held: ClaimedJob, share: float, step: str) -> bool:
        """Write progress; True if the job was asked to stop.  LeaseLost if another attempt holds it."""
        return self._fenced(held, progress=share, step=step)

    def hold(self, held: ClaimedJob) -> None:
        """Begin the end: lock the row.  Cancelled if it was asked to stop, LeaseLost if another attempt holds it."""
        if self.renew(held):
            raise Cancelled("Cancelled.")

    def end(self, held: ClaimedJob, state: JobState, error: str | None) -> None:
        """Reach a final state."""
        progress = 1.0 if state is JobState.DONE else job.c.progress
        self._fenced(held, state=state.value, error=error, progress=progress, lease_until=None, finished_at=now_ms())

    def put_back(self, held: ClaimedJob, delay_ms: int) -> None:
        """Let a later attempt try again."""
        self._fenced(held, state=JobState.QUEUED.value, lease_until=None, not_before=now_ms() + delay_ms, woken_at=0)

    def more_waiting(self, queue: Queue) -> None:
        """Wake the queue once more if it has work that is due."""
        if self._connection.execute(sa.select(_next_id(queue))).scalar_one_or_none() is not None:
            self._woken.add(queue)

    def end_leases(self, queue: Queue | None, counted: bool) -> None:
        """End every lease, or a queue's, for whoever knows that no worker holds one any more; all shops.

        Not `counted`: the attempt was cut short by us and says nothing about the job.  Its number is then given out
        again, so nobody may be left who could write under it.
        """
        held = job.c.state == JobState.RUNNING.value
        which = held if queue is None else sa.and_(held, job.c.queue == queue.value)
        less = sa.case((job.c.attempt > 0, job.c.attempt - 1), else_=0)
        self._connection.execute(
            job.update().where(which).values(lease_until=0, attempt=job.c.attempt if counted else less)
        )

    def give_back(self, held: ClaimedJob) -> None:
        """Let another worker do it at once; this attempt does not count, for it was cut short by us."""
        again = {"state": JobState.QUEUED.value, "lease_until": None, "woken_at": 0}
        self._fenced(held, **again, attempt=job.c.attempt - 1)

    def take_back_expired(self) -> tuple[ClaimedJob, ...]:
        """Queue jobs of workers that died; those that may not run again are handed back still running, to be ended."""
        expired = sa.and_(job.c.state == JobState.RUNNING.value, job.c.lease_until < now_ms())
        again = sa.and_(expired, job.c.attempt < MOST_ATTEMPTS, sa.not_(job.c.cancel_requested))
        queued = {"state": JobState.QUEUED.value, "lease_until": None, "woken_at": 0}
        self._connection.execute(job.update().where(again).values(**queued))
        over = sa.select(job).where(expired).with_for_update(skip_locked=True)
        return tuple(_claimed(row) for row in self._connection.execute(over))

    def wake_waiting(self) -> None:
        """Wake queues with due jobs that no wake-up reached; the condition lets one of N sweepers do it."""
        waiting = sa.and_(job.c.state == JobState.QUEUED.value, job.c.not_before <= now_ms())
        query = job.update().where(waiting, job.c.woken_at < now_ms() - WAKE_AGAIN_MS).values(woken_at=now_ms())
        self._woken.update(Queue(queue) for queue in self._connection.execute(query.returning(job.c.queue)).scalars())

    def _fenced(self, held: ClaimedJob, **values: Any) -> bool:
        mine = sa.and_(job.c.id == held.id, job.c.attempt == held.attempt, job.c.state == JobState.RUNNING.value)
        query = job.update().where(mine).values(**values).returning(job.c.cancel_requested)
        asked_to_stop = self._connection.execute(query).scalar_one_or_none()
        if asked_to_stop is None:
            raise LeaseLost("Another worker holds this job now.")
        return bool(asked_to_stop)


def _next_id(queue: Queue) -> sa.ScalarSelect[str]:
    other = job.alias("other")
    running = sa.select(sa.func.count()).where(
        other.c.shop_id == job.c.shop_id, other.c.state == JobState.RUNNING.value
    )
    due = sa.and_(job.c.state == JobState.QUEUED.value, job.c.queue == queue.value, job.c.not_before <= now_ms())
    can_wait = sa.case((job.c.kind == JobKind.BACKTEST.value, 1), else_=0)  # nobody waits for one to value a lot
    order = running.scalar_subquery(), can_wait, job.c.created_at, job.c.id
    query = sa.select(job.c.id).where(due).order_by(*order).limit(1)
    return query.with_for_update(skip_locked=True, of=job).correlate(None).scalar_subquery()


def _claimed(row: Any) -> ClaimedJob:
    return ClaimedJob(
        id=row.id,
        shop=ShopId(row.shop_id),
        kind=JobKind(row.kind),
        queue=Queue(row.queue),
        subject_id=row.subject_id,
        attempt=row.attempt,
        payload=row.payload,
    )
