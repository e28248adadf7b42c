"""Several lots at once."""

from typing import Annotated, Any

from fastapi import APIRouter, Body

from api.http.dependencies import CurrentShop, ReadWork
from api.http.schemas.bid_plans import BidPlanIn
from models.services.plan_bids import plan_bids

router = APIRouter(tags=["bid plans"])


@router.post("/bid-plans")
def post_bid_plan(asked: Annotated[BidPlanIn, Body()], shop: CurrentShop, work: ReadWork) -> dict[str, Any]:
    """Which of these lots to bid for, up to what, with one amount of cash and one number of hours; kept nowhere."""
    return plan_bids(work, shop, asked.asked())
