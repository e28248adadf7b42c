"""Model versions as JSON."""

import datetime as dt
from collections.abc import Mapping
from typing import Any, Self

from pydantic import BaseModel, ConfigDict

from api.http.schemas.base import Out
from api.http.schemas.jobs import JobOut
from models.services.submitted import Submitted
from models.store.records import ModelVersionRecord
from models.store.states import ModelState


class ModelVersionOut(Out):
    """One fitted set of regressions."""

    id: str
    number: int
    state: ModelState
    as_of: dt.date
    seed: int
    fingerprint: str | None
    sales_used: int | None
    learned: Mapping[str, Any]
    facts: Mapping[str, Any]
    error: str | None
    created_at: dt.datetime
    trained_at: dt.datetime | None


class ModelVersionTested(ModelVersionOut):
    """The same with its test on the shop's own past, null until that is done; too long for a list."""

    backtest: Mapping[str, Any] | None


class TrainingIn(BaseModel):
    """What to train on: the shop's date and the default seed unless given."""

    model_config = ConfigDict(extra="forbid")

    as_of: dt.date | None = None
    seed: int | None = None


class TrainingSubmitted(BaseModel):
    """A model version with the job that fits it."""

    training: ModelVersionOut
    job: JobOut | None

    @classmethod
    def of(cls, submitted: Submitted[ModelVersionRecord]) -> Self:
        """From the service's answer."""
        job = JobOut.of(submitted.job) if submitted.job else None
        return cls(training=ModelVersionOut.of(submitted.subject), job=job)
