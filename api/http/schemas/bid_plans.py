"""What a bid plan is asked for."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, StrictFloat, StrictInt

from api.http.schemas.texts import Text
from models.services.plan_bids import MOST_LOTS, PlanAsked

Id = Annotated[Text, Field(max_length=32)]


class BidPlanIn(BaseModel):
    """Lots to choose from, and what there is for all of them together."""

    model_config = ConfigDict(extra="forbid")

    lots: Annotated[list[Id], Field(min_length=1, max_length=MOST_LOTS, description="Ids of evaluated lots.")]
    cash_limit: Annotated[Text | StrictInt | StrictFloat, Field(description="Most cash out, in major units.")]
    listing_hours: Annotated[StrictInt | StrictFloat, Field(ge=0, description="Hours for listing what they bring.")]

    def asked(self) -> PlanAsked:
        """As the service takes it."""
        return PlanAsked(self.lots, self.cash_limit, float(self.listing_hours))
