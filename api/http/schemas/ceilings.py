"""Ceilings that sellers fixed, as JSON."""

import datetime as dt
from typing import Annotated, Any, Self

from pydantic import BaseModel, ConfigDict, Field, StrictFloat, StrictInt

from api.http.schemas.texts import Text
from models.services.fix_ceiling import CeilingAsked
from models.store.records import CeilingStampRecord
from models.values.money import written

Amount = Text | StrictInt | StrictFloat


class CeilingIn(BaseModel):
    """How far to bid."""

    model_config = ConfigDict(extra="forbid")

    amount: Annotated[Amount, Field(description="Hammer price in major units, as a text or a number.")]
    reason: Annotated[Text | None, Field(description="Why, where it is higher than before.")] = None

    def asked(self) -> CeilingAsked:
        """As the service takes it."""
        return CeilingAsked(self.amount, self.reason)


class CeilingOut(BaseModel):
    """One ceiling with its time stamp; `adds` is what raising it was told to add, null where it was not raised."""

    number: int
    amount: str
    evaluation_number: int
    evaluation_ceiling: str
    reason: str | None
    adds: dict[str, Any] | None
    fixed_by: str
    token: str | None
    fixed_at: dt.datetime

    @classmethod
    def of(cls, stamp: CeilingStampRecord, currency: str) -> Self:
        """From the record, amounts written in the shop's currency."""
        amounts = {name: written(getattr(stamp, name), currency) for name in ("amount", "evaluation_ceiling")}
        return cls(**{**vars(stamp), **amounts})
