"""Totals of listing work: how many units in how many hours."""

from typing import Annotated

from fastapi import APIRouter, Body, Response

from api.http.dependencies import CurrentShop, Cursor, Limit, ReadWork, WriteWork
from api.http.once import AnsweredOnce
from api.http.schemas.base import ListOut
from api.http.schemas.work_log import EntryIn, EntryOut
from models.services.work_log import add_entry, delete_entry, read_entries

router = APIRouter(tags=["work log"])


@router.post("/work-log", status_code=201, response_model=EntryOut)
def post_entry(
    asked: Annotated[EntryIn, Body()], shop: CurrentShop, work: WriteWork, once: AnsweredOnce
) -> EntryOut | Response:
    """Keep a total; the next training learns from it."""
    return once([asked.model_dump_json().encode()], lambda: EntryOut.of(add_entry(work, shop, asked.asked())))


@router.get("/work-log")
def get_entries(shop: CurrentShop, work: ReadWork, limit: Limit = 50, cursor: Cursor = None) -> ListOut[EntryOut]:
    """Totals by their day, newest first."""
    return ListOut[EntryOut].of(read_entries(work, shop, limit, cursor), EntryOut.of)


@router.delete("/work-log/{entry_id}", status_code=204)
def delete_one_entry(entry_id: str, shop: CurrentShop, work: WriteWork) -> None:
    """Take a total back; models that learned from it stay as they are."""
    delete_entry(work, shop, entry_id)
