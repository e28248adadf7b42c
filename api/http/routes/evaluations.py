"""Evaluations of a lot."""

from typing import Annotated, Any

from fastapi import APIRouter, Body, Response

from api.http.dependencies import CurrentShop, CurrentShopRecord, Cursor, Limit, ReadWork, WriteWork
from api.http.once import AnsweredOnce
from api.http.schemas.base import ListOut
from api.http.schemas.lots import EvaluationIn, EvaluationSummaryOut, LotSubmitted, WhatIfIn
from api.http.schemas.texts import writable_content
from models.services.read_evaluations import read_evaluation, read_evaluations
from models.services.submit_evaluation import submit_evaluation
from models.services.what_if import what_if

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


@router.post("/lots/{lot_id}/what-if")
def post_what_if(lot_id: str, asked: Annotated[WhatIfIn, Body()], shop: CurrentShop, work: ReadWork) -> dict[str, Any]:
    """The decision under other settings, from the current evaluation's draws; nothing is saved."""
    return what_if(work, shop, lot_id, asked.settings)
