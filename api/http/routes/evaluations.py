"""Evaluations of a lot and its lines."""

from collections.abc import Mapping
from typing import Annotated, Any

from fastapi import APIRouter, Body, Query, Response

from api.http.dependencies import CurrentShop, CurrentShopRecord, Cursor, Limit, ReadWork, WriteWork
from api.http.once import AnsweredOnce
from api.http.schemas.base import ListOut
from api.http.schemas.lots import EvaluationIn, EvaluationSummaryOut, LotSubmitted
from api.http.schemas.texts import Text, writable_content
from models.services.read_evaluations import read_evaluation, read_evaluations
from models.services.read_lines import LinesAsked, read_lines
from models.services.submit_evaluation import submit_evaluation

router = APIRouter(tags=["evaluations"])


@router.get("/lots/{lot_id}/evaluation")
def get_evaluation(lot_id: str, shop: CurrentShop, work: ReadWork) -> dict[str, Any]:
    """The lot's current evaluation."""
    return dict(read_evaluation(work, shop, lot_id).document)


@router.get("/lots/{lot_id}/evaluations")
def get_evaluations(
    lot_id: str, shop: CurrentShop, work: ReadWork, limit: Limit = 50, cursor: Cursor = None
) -> ListOut[EvaluationSummaryOut]:
    """All evaluations of the lot, newest first."""
    page = read_evaluations(work, shop, lot_id, limit, cursor)
    return ListOut[EvaluationSummaryOut].of(page, EvaluationSummaryOut.of)


@router.post("/lots/{lot_id}/evaluations", status_code=202, response_model=LotSubmitted)
def post_evaluation(
    lot_id: str,
    held: CurrentShopRecord,
    work: WriteWork,
    once: AnsweredOnce,
    asked: Annotated[EvaluationIn | None, Body()] = None,
) -> LotSubmitted | Response:
    """Value the lot again."""
    asked = asked or EvaluationIn()
    writable_content("settings", asked.settings)

    def made() -> LotSubmitted:
        return LotSubmitted.of(submit_evaluation(work, held.id, lot_id, asked.asked()), held.currency)

    return once([asked.model_dump_json().encode()], made)


@router.get("/lots/{lot_id}/lines")
def get_lines(
    lot_id: str,
    shop: CurrentShop,
    work: ReadWork,
    sort: Annotated[Text, Query(max_length=50, description="A column; - before it for falling.")] = "no",
    filter: Annotated[Text, Query(max_length=200, description="Words, action:..., basis:...")] = "",  # noqa: A002  contract
    limit: Limit = 50,
    cursor: Cursor = None,
) -> dict[str, Any]:
    """Lines with their estimates once evaluated, as the manifest has them before."""
    page = read_lines(work, shop, lot_id, LinesAsked(sort, filter, limit, cursor))
    return {"items": list[Mapping[str, Any]](page.items), "next": page.next}
