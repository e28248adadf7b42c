"""Settings and the backlog as JSON."""

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Any

from api.http.schemas.base import Out
from models.values.in_force import Origin


class AssumptionOut(Out):
    """One setting in force with its usual range."""

    key: str
    value: Any
    source: Origin
    low: Any
    high: Any


class SettingsOut(Out):
    """Three settings documents, and every key with where its value comes from; the version is the ETag."""

    given: Mapping[str, Any]
    learned: Mapping[str, Any]
    assumed: Mapping[str, Any]
    in_force: Sequence[AssumptionOut]


class BacklogOut(Out):
    """What waits to be listed: settings as they stand, projection of the newest evaluation."""

    settings: Sequence[AssumptionOut]
    before: Mapping[str, Any] | None
    weekly: Sequence[Mapping[str, Any]]
    lot_id: str | None
    as_of: dt.date | None
    pace: Mapping[str, Any] | None
