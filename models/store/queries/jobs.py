"""Jobs as shops see them: queued, read, cancelled, forgotten.  Working on them: `claims`."""

from collections.abc import Mapping
from typing import Any

import sqlalchemy as sa

from models.store.now import moment, now_ms, optional_moment
from models.store.paging import newest_first, newest_page
from models.store.records import JobRecord, Page, ShopId
from models.store.states import JobKind, JobState, Queue
from models.store.tables.base import new_id
from models.store.tables.jobs import job
from models.values.errors import NotFound

_FINAL = (JobState.DONE.value, JobState.FAILED.value, JobState.CANCELLED.value)


class Jobs:
    """Queries over `job`; `woken` collects the queues to wake after the commit."""

    def __init__(self, connection: sa.Connection, woken: set[Queue]) -> None:
        self._connection = connection
        self._woken = woken

    def queue(
        self, shop: ShopId, kind: JobKind, queue: Queue, subject_id: str, payload: Mapping[str, Any]
    ) -> JobRecord:
        """A new job; its queue is woken once this transaction is committed."""
        made = new_id()
        values = {"id": made, "shop_id": shop, "kind": kind.value, "queue": queue.value, "subject_id": subject_id}
        fresh = {"state": JobState.QUEUED.value, "attempt": 0, "cancel_requested": False, "progress": 0.0, "step": ""}
        times = {"not_before": now_ms(), "woken_at": now_ms(), "created_at": now_ms()}
        self._connection.execute(job.insert().values(**values, **fresh, **times, payload=dict(payload)))
        self._woken.add(queue)
        return self.require(shop, made)

    def require(self, shop: ShopId, job_id: str) -> JobRecord:
        """One job; NotFound if the shop has none such."""
        row = self._connection.execute(sa.select(job).where(job.c.shop_id == shop, job.c.id == job_id)).one_or_none()
        if row is None:
            raise NotFound("There is no such job.")
        return _record(row)

    def get_latest_of(self, shop: ShopId, subject_id: str) -> JobRecord | None:
        """The newest job of a subject."""
        query = sa.select(job).where(job.c.shop_id == shop, job.c.subject_id == subject_id)
        row = self._connection.execute(query.order_by(job.c.created_at.desc(), job.c.id.desc()).limit(1)).one_or_none()
        return None if row is None else _record(row)

    def page(self, shop: ShopId, limit: int, cursor: str | None) -> Page[JobRecord]:
        """Jobs, newest first."""
        query = sa.select(job).where(job.c.shop_id == shop)
        rows = self._connection.execute(newest_first(query, job, cursor, limit)).all()
        return newest_page(rows, limit, _record)

    def cancel(self, shop: ShopId, job_id: str) -> JobRecord:
        """A waiting job ends at once; a running one hears of it at its next step or renewal."""
        self._cancel(sa.and_(job.c.shop_id == shop, job.c.id == job_id))
        return self.require(shop, job_id)

    def cancel_of(self, shop: ShopId, subject_id: str) -> None:
        """The same for every job of a subject."""
        self._cancel(sa.and_(job.c.shop_id == shop, job.c.subject_id == subject_id))

    def prune(self, older_than_ms: int) -> int:
        """Forget jobs of every shop that ended long ago."""
        old = sa.and_(job.c.state.in_(_FINAL), job.c.finished_at < now_ms() - older_than_ms)
        return self._connection.execute(job.delete().where(old)).rowcount

    def _cancel(self, which: sa.ColumnElement[bool]) -> None:
        waiting = sa.and_(which, job.c.state == JobState.QUEUED.value)
        ended = {"state": JobState.CANCELLED.value, "cancel_requested": True, "finished_at": now_ms()}
        self._connection.execute(job.update().where(waiting).values(**ended))
        running = sa.and_(which, job.c.state == JobState.RUNNING.value)
        self._connection.execute(job.update().where(running).values(cancel_requested=True))


def _record(row: Any) -> JobRecord:
    return JobRecord(
        id=row.id,
        kind=JobKind(row.kind),
        queue=Queue(row.queue),
        state=JobState(row.state),
        subject_id=row.subject_id,
        progress=row.progress,
        step=row.step,
        attempt=row.attempt,
        error=row.error,
        cancel_requested=row.cancel_requested,
        created_at=moment(row.created_at),
        started_at=optional_moment(row.started_at),
        finished_at=optional_moment(row.finished_at),
    )
