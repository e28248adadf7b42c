"""Jobs as JSON."""

import datetime as dt

from api.http.schemas.base import Out
from models.store.states import JobKind, JobState


class JobOut(Out):
    """One piece of background work; `progress` is a share 0..1, `subject_id` what it works on."""

    id: str
    kind: JobKind
    state: JobState
    progress: float
    step: str
    attempt: int
    error: str | None
    subject_id: str
    cancel_requested: bool
    created_at: dt.datetime
    started_at: dt.datetime | None
    finished_at: dt.datetime | None
