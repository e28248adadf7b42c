"""How far the seller means to bid for a lot, each time with its stamp."""

from typing import Annotated

from fastapi import APIRouter, Body, Response

from api.http.dependencies import CurrentShopRecord, CurrentVisitor, Cursor, Limit, ReadWork, WriteWork
from api.http.once import AnsweredOnce
from api.http.schemas.base import ListOut
from api.http.schemas.ceilings import CeilingIn, CeilingOut
from models.services.fix_ceiling import fix_ceiling, read_ceilings

router = APIRouter(tags=["ceilings"])


@router.post("/lots/{lot_id}/ceiling", status_code=201, response_model=CeilingOut)
def post_ceiling(
    lot_id: str, asked: Annotated[CeilingIn, Body()], visitor: CurrentVisitor, work: WriteWork, once: AnsweredOnce
) -> CeilingOut | Response:
    """Fix the ceiling; going higher than before takes a reason, and the refusal says what it adds."""

    def made() -> CeilingOut:
        return CeilingOut.of(fix_ceiling(work, visitor.caller, lot_id, asked.asked()), visitor.shop.currency)

    return once([asked.model_dump_json().encode()], made)


@router.get("/lots/{lot_id}/ceilings")
def get_ceilings(
    lot_id: str, held: CurrentShopRecord, work: ReadWork, limit: Limit = 50, cursor: Cursor = None
) -> ListOut[CeilingOut]:
    """Every ceiling that was fixed for the lot, newest first."""
    page = read_ceilings(work, held.id, lot_id, limit, cursor)
    return ListOut[CeilingOut].of(page, lambda stamp: CeilingOut.of(stamp, held.currency))
