"""An entry of the work log as the store hands it out."""

import datetime as dt
from dataclasses import dataclass


@dataclass(frozen=True)
class WorkLogRecord:
    """So many units listed in so many hours; blank texts say nothing."""

    id: str
    on: dt.date
    items: int
    hours: float
    kind: str
    category: str
    note: str
    created_at: dt.datetime
