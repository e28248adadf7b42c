"""Sold history as JSON."""

import datetime as dt
from typing import Self

from pydantic import BaseModel, ConfigDict, Field

from api.http.schemas.base import Out
from api.http.schemas.files import FileOut
from api.http.schemas.jobs import JobOut
from api.http.schemas.money import amount
from models.services.submitted import Submitted
from models.store.records import ImportRecord, SaleRecord
from models.store.states import FileState


class ImportOut(Out):
    """One file of sold history; `added` new sales, `already_known` rows that were there before."""

    id: str
    number: int
    filename: str
    size: int
    state: FileState
    error: str | None
    file: FileOut
    added: int
    already_known: int
    created_at: dt.datetime


class ImportSubmitted(BaseModel):
    """An import with the job that reads it."""

    model_config = ConfigDict(serialize_by_alias=True)

    import_: ImportOut = Field(serialization_alias="import")
    job: JobOut | None

    @classmethod
    def of(cls, submitted: Submitted[ImportRecord]) -> Self:
        """From the service's answer."""
        return cls(import_=ImportOut.of(submitted.subject), job=JobOut.of(submitted.job) if submitted.job else None)


class SaleOut(BaseModel):
    """One row of sold history; money is for one unit."""

    import_id: str
    row: int
    title: str
    brand: str
    category: str
    condition: str | None
    quantity: int
    tag_each: str | None
    sold_price: str | None
    listed_on: dt.date | None
    sold_on: dt.date | None

    @classmethod
    def of(cls, sale: SaleRecord, currency: str) -> Self:
        """Amounts as decimal strings of the shop's currency."""
        amounts = {"tag_each": amount(sale.tag_each, currency), "sold_price": amount(sale.sold_price, currency)}
        return cls(**{**vars(sale), **amounts})
