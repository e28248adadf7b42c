"""Lots and their evaluations as JSON."""

import datetime as dt
from typing import Any, Self

from pydantic import BaseModel, ConfigDict

from api.http.schemas.base import Out
from api.http.schemas.ceilings import CeilingOut
from api.http.schemas.files import FileOut
from api.http.schemas.jobs import JobOut
from api.http.schemas.money import amount
from models.services.submit_evaluation import EvaluationAsked
from models.services.submitted import Submitted
from models.store.records import LotRecord
from models.store.states import FileState


class LotOut(BaseModel):
    """A lot; `lines`, `units` and `tag_total` once its manifest is read, `fixed_ceiling` once there is one."""

    id: str
    name: str
    source: str | None
    filename: str
    state: FileState
    error: str | None
    currency: str
    settings: dict[str, Any]
    seed: int
    as_of: dt.date | None
    file: FileOut
    lines: int
    units: int
    tag_total: str | None
    evaluation_id: str | None
    fixed_ceiling: CeilingOut | None
    created_at: dt.datetime

    @classmethod
    def of(cls, lot: LotRecord, currency: str) -> Self:
        """From the record, amounts written in the shop's currency."""
        fixed = None if lot.fixed is None else CeilingOut.of(lot.fixed, currency)
        made = {"file": FileOut.of(lot.file), "tag_total": amount(lot.tag_total, currency)}
        return cls(**{**vars(lot), **made, "currency": currency, "settings": lot.given, "fixed_ceiling": fixed})


class LotSubmitted(BaseModel):
    """A lot with the job that works on it."""

    lot: LotOut
    job: JobOut | None

    @classmethod
    def of(cls, submitted: Submitted[LotRecord], currency: str) -> Self:
        """From the service's answer."""
        job = JobOut.of(submitted.job) if submitted.job else None
        return cls(lot=LotOut.of(submitted.subject, currency), job=job)


class EvaluationIn(BaseModel):
    """What to evaluate anew; what is absent stays as the lot has it, `settings` replace the lot's own."""

    model_config = ConfigDict(extra="forbid")

    settings: dict[str, Any] | None = None
    model_version: int | None = None
    seed: int | None = None
    as_of: dt.date | None = None

    def asked(self) -> EvaluationAsked:
        """As the service takes it."""
        return EvaluationAsked(self.settings, self.model_version, self.seed, self.as_of)


class WhatIfIn(BaseModel):
    """Settings to read the decision under; null takes back what the evaluation was given."""

    model_config = ConfigDict(extra="forbid")

    settings: dict[str, Any]


class EvaluationSummaryOut(Out):
    """One evaluation in a lot's list."""

    id: str
    number: int
    model_version: int
    seed: int
    as_of: dt.date
    verdict: str
    amount: str
    current: bool
    created_at: dt.datetime
