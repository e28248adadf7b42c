"""What if a term or a goal were another?  An answer at once, read from the work already done; nothing is saved."""

from collections.abc import Mapping
from typing import Any, Final

from fastapi import APIRouter, Request
from starlette.responses import Response

from api.http.dependencies import CurrentShopRecord, ReadWork
from api.http.pages.doubts import INSIST, as_typed, doubts_of
from api.http.pages.render import page
from api.http.pages.setting_fields import document_of
from api.http.pages.what_if_fields import ASKED, what_if_fields
from models.services.read_evaluations import read_evaluation
from models.services.read_lots import read_lot
from models.services.what_if import what_if
from models.store.records import ShopRecord
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Conflict
from models.values.given import Given, read_given
from models.values.in_force import as_written
from models.values.settings import REGISTRY

router = APIRouter()
LONGEST: Final = 50  # characters of a term


@router.get("/lots/{lot_id}/what-if")
def get_what_if_page(request: Request, lot_id: str, held: CurrentShopRecord, work: ReadWork) -> Response:
    """The form by address, so that it needs no script and can be kept as a bookmark."""
    names = (*ASKED, *(INSIST + key for key in ASKED))
    typed = {name: request.query_params.get(name, "").replace("\x00", "").strip()[:LONGEST] for name in names}
    lot = read_lot(work, held.id, lot_id)
    evaluation = read_evaluation(work, held.id, lot_id)
    doubts = doubts_of(typed, ASKED, held.currency, held.time_zone)
    shown = {
        "lot": lot,
        "evaluation": evaluation,
        "currency": held.currency,
        "zone": held.time_zone,
        "fields": as_typed(what_if_fields(work, held, evaluation), typed, doubts),
        "doubts": doubts,
    }
    told = {} if doubts else _told(work, held, lot_id, typed)
    return page(request.scope, "lot/what_if.html", shown | told, 422 if doubts else 200)


def _told(work: UnitOfWork, held: ShopRecord, lot_id: str, typed: Mapping[str, str]) -> dict[str, Any]:
    """The answer; draws of an older form cannot be read again, which is said in its place."""
    document = document_of(typed, ASKED, held.time_zone)
    if not document:
        return {}
    try:
        return {"asked": _asked(document, held.currency), "then": what_if(work, held.id, lot_id, document)}
    except Conflict as error:
        return {"refused": error.message}


def _asked(document: Given, currency: str) -> dict[str, Any]:
    """What was asked by key, as it was understood."""
    read = [(f"{group}.{name}", value) for group, own in read_given(document).items() for name, value in own.items()]
    return {key: as_written(REGISTRY[key], value, currency) for key, value in read}
