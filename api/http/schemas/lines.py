"""What is typed in for one line of a lot, as JSON."""

from typing import Annotated, Any, Self

from pydantic import BaseModel, ConfigDict, Field, StrictFloat, StrictInt

from api.http.etag import etag
from api.http.schemas.jobs import JobOut
from api.http.schemas.lots import LotOut
from api.http.schemas.texts import Text
from models.services.edit_line import LineEdited
from models.store.records import LineEditRecord
from models.values.money import written

Amount = Text | StrictInt | StrictFloat


class LineIn(BaseModel):
    """What to change; what is absent stays as it is."""

    model_config = ConfigDict(extra="forbid")

    looked_up_prices: Annotated[
        list[Amount] | None, Field(description="Sold prices of one unit in major units; none to forget them.")
    ] = None
    action: Annotated[Text | None, Field(description="list, bundle, skip or never; null leaves it to us.")] = None

    def changes(self) -> dict[str, Any]:
        """As the service takes it."""
        return {name: getattr(self, name) for name in sorted(self.model_fields_set)}


class LineGivenOut(BaseModel):
    """What the seller typed in for a line; `etag` is what its next change sends as If-Match."""

    no: int
    looked_up_prices: list[str]
    action: str | None
    etag: str

    @classmethod
    def of(cls, no: int, edit: LineEditRecord, currency: str) -> Self:
        """From the record, amounts written in the shop's currency."""
        prices = [written(price, currency) for price in edit.looked_up]
        return cls(no=no, looked_up_prices=prices, action=edit.action, etag=etag(edit.version))


class LineSubmitted(BaseModel):
    """The line as it stands now, its lot, and the job that values it."""

    line: LineGivenOut
    lot: LotOut
    job: JobOut

    @classmethod
    def of(cls, no: int, edited: LineEdited, currency: str) -> Self:
        """From the service's answer."""
        lot, job = LotOut.of(edited.submitted.subject, currency), JobOut.of(edited.submitted.job)
        return cls(line=LineGivenOut.of(no, edited.edit, currency), lot=lot, job=job)
