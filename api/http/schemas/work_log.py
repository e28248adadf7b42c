"""Totals of listing work as JSON."""

import datetime as dt
from typing import Annotated, Literal, Self

from pydantic import BaseModel, ConfigDict, Field

from api.http.schemas.texts import Text
from models.services.work_log import EntryAsked
from models.store.work_log_record import WorkLogRecord


class EntryIn(BaseModel):
    """So many units listed in so many hours."""

    model_config = ConfigDict(extra="forbid", allow_inf_nan=False)

    items: Annotated[int, Field(strict=True, description="Units listed.")]
    hours: Annotated[
        float, Field(strict=True, description="Hours spent on listing them; sorting and packing are not counted.")
    ]
    on: Annotated[dt.date | None, Field(description="The day, or the last one; today where it is left out.")] = None
    kind: Annotated[Literal["sealed", "used"] | None, Field(description="Of all the items, where it is one.")] = None
    category: Annotated[Text | None, Field(max_length=200, description="Of all the items, as files say it.")] = None
    note: Annotated[Text | None, Field(max_length=500)] = None

    def asked(self) -> EntryAsked:
        """As the service takes it."""
        return EntryAsked(self.items, self.hours, self.on, self.kind or "", self.category or "", self.note or "")


class EntryOut(BaseModel):
    """One entry."""

    id: str
    on: dt.date
    items: int
    hours: float
    kind: str | None
    category: str | None
    note: str | None
    created_at: dt.datetime

    @classmethod
    def of(cls, entry: WorkLogRecord) -> Self:
        """From the record; what was not said is null."""
        said = {name: getattr(entry, name) or None for name in ("kind", "category", "note")}
        return cls(**{**vars(entry), **said})
