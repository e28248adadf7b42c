"""Lots on pages: upload a manifest, see its ceiling, change its terms."""

from typing import Annotated

from fastapi import APIRouter, Depends, Form, Query, Request, UploadFile
from starlette.responses import Response

from api.http.dependencies import CurrentShop, CurrentShopRecord, Cursor, ReadWork, WriteWork
from api.http.pages.columns import named_columns
from api.http.pages.forms import Fields, Proven, see
from api.http.pages.lot_view import SORTS, lot_fields, lot_view
from api.http.pages.render import page
from api.http.pages.setting_fields import OF_A_BUY, OF_ONE_LOT, document_of, with_unseen
from api.http.schemas.texts import Text
from api.http.schemas.uploads import Received, received
from models.services.delete_lot import delete_lot
from models.services.read_lots import read_lot
from models.services.read_model_versions import get_active_model
from models.services.read_problems import read_lot_problems
from models.services.shop_settings import read_sources
from models.services.store_mapping import store_lot_mapping
from models.services.submit_evaluation import EvaluationAsked, submit_evaluation
from models.services.submit_lot import LotAsked, submit_lot

router = APIRouter()
FIELDS_SHOWN = 8  # of a lot's fields: its own and the first buying terms; the rest folds away


def manifest_file(manifest: UploadFile) -> Received:
    """The uploaded manifest, hashed before a transaction is open."""
    return received(manifest)


@router.get("/lots/new")
def get_new_lot(request: Request, held: CurrentShopRecord, work: ReadWork) -> Response:
    """The upload form with the terms that matter most."""
    shown = {
        "fields": lot_fields(work, held, {}),
        "sources": read_sources(work, held.id),
        "model": get_active_model(work, held.id),
        "shown": FIELDS_SHOWN,
        "zone": held.time_zone,
    }
    return page(request.scope, "lot_new.html", shown)


@router.post("/lots", dependencies=[Proven])
def post_new_lot(
    manifest: Annotated[Received, Depends(manifest_file)],
    fields: Fields,
    held: CurrentShopRecord,
    work: WriteWork,
    name: Annotated[Text, Form()] = "",
) -> Response:
    """Take in a manifest."""
    settings = document_of(fields, (*OF_ONE_LOT, *OF_A_BUY), held.time_zone)
    lot = submit_lot(work, held.id, manifest.upload(), LotAsked(name, settings)).subject
    return see(f"/lots/{lot.id}")


@router.get("/lots/{lot_id}")
def get_lot_page(
    request: Request,
    lot_id: str,
    held: CurrentShopRecord,
    work: ReadWork,
    sort: Annotated[Text, Query(max_length=50)] = SORTS[0][0],
    cursor: Cursor = None,
) -> Response:
    """The ceiling, why, hours, backlog, lines."""
    return page(request.scope, "lot/page.html", lot_view(work, held, lot_id, sort, cursor))


@router.get("/lots/{lot_id}/problems")
def get_lot_problems_page(
    request: Request, lot_id: str, held: CurrentShopRecord, work: ReadWork, cursor: Cursor = None
) -> Response:
    """Every row of the manifest with a doubt."""
    found = read_lot_problems(work, held.id, lot_id, 100, cursor)
    return page(request.scope, "lot_problems.html", {"lot": read_lot(work, held.id, lot_id), "problems": found})


@router.post("/lots/{lot_id}/columns", dependencies=[Proven])
def post_lot_columns(lot_id: str, fields: Fields, shop: CurrentShop, work: WriteWork) -> Response:
    """Read the manifest again under these columns."""
    store_lot_mapping(work, shop, lot_id, named_columns(fields))
    return see(f"/lots/{lot_id}")


@router.post("/lots/{lot_id}/evaluations", dependencies=[Proven])
def post_lot_terms(lot_id: str, fields: Fields, held: CurrentShopRecord, work: WriteWork) -> Response:
    """Value the lot again under changed terms; what the form does not show stays as it was."""
    keys = (*OF_ONE_LOT, *OF_A_BUY)
    settings = document_of(fields, keys, held.time_zone)
    settings = with_unseen(settings, read_lot(work, held.id, lot_id).given, keys)
    submit_evaluation(work, held.id, lot_id, EvaluationAsked(settings=settings))
    return see(f"/lots/{lot_id}")


@router.post("/lots/{lot_id}/removal", dependencies=[Proven])
def post_removal(lot_id: str, shop: CurrentShop, work: WriteWork) -> Response:
    """Forget the lot."""
    delete_lot(work, shop, lot_id)
    return see("/")
