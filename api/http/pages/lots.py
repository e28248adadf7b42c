"""Lots on pages: upload a manifest, see its ceiling, change its terms."""

from collections.abc import Mapping
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query, Request, UploadFile
from starlette.responses import Response

from api.http.csv_file import csv_file
from api.http.dependencies import CurrentShop, CurrentShopRecord, Cursor, ReadWork, WriteWork
from api.http.pages.asking import Form, kept_or_asked
from api.http.pages.columns import lines_question, named_columns
from api.http.pages.doubts import Doubt, as_typed, doubts_of
from api.http.pages.forms import Fields, Proven, see
from api.http.pages.learning import learning
from api.http.pages.lot_view import SORTS, LinesShown, lot_fields, lot_view
from api.http.pages.once_form import Once
from api.http.pages.render import page
from api.http.pages.setting_fields import OF_A_BUY, OF_ONE_LOT, document_of, with_unseen
from api.http.pages.stated_words import stated_words
from api.http.schemas.texts import Text
from api.http.schemas.uploads import Received, received
from models.services.delete_lot import delete_lot
from models.services.problem_table import lot_problem_table
from models.services.read_lots import read_lot
from models.services.read_problems import read_lot_problems
from models.services.shop_settings import read_sources
from models.services.store_mapping import store_lot_mapping
from models.services.submit_evaluation import EvaluationAsked, submit_evaluation
from models.services.submit_lot import LotAsked, submit_lot
from models.store.records import ShopRecord
from models.store.unit_of_work import UnitOfWork
from models.values.given import Given

router = APIRouter()
FIELDS_SHOWN = 8  # of a lot's fields: its own and the first buying terms; the rest folds away


TODAY = "today"  # the value of a button that gives up a day fixed for the lot
LOT_KEYS = (*OF_ONE_LOT, *OF_A_BUY)
NO_FILE = Doubt("Choose the manifest first")


def manifest_file(manifest: UploadFile | None = None) -> Received | None:
    """The uploaded manifest, hashed before a transaction is open; None where no file was chosen."""
    return received(manifest) if manifest is not None and manifest.filename else None


@router.get("/lots/new")
def get_new_lot(request: Request, held: CurrentShopRecord, work: ReadWork) -> Response:
    """The upload form with the terms that matter most."""
    return page(request.scope, "lot_new.html", _new_lot(work, held, {}, {}))


def _new_lot(
    work: UnitOfWork, held: ShopRecord, typed: Mapping[str, str], doubts: Mapping[str, Doubt]
) -> dict[str, Any]:
    fields = as_typed(lot_fields(work, held, {}), typed, doubts)
    return {
        "fields": fields,
        "asks_below": any(one.doubt for one in fields[FIELDS_SHOWN:]),
        "sources": read_sources(work, held.id),
        "learning": learning(work, held.id),
        "shown": FIELDS_SHOWN,
        "name": typed.get("name", ""),
        "doubts": doubts,
    }


@router.post("/lots", dependencies=[Proven])
def post_new_lot(
    request: Request,
    manifest: Annotated[Received | None, Depends(manifest_file)],
    fields: Fields,
    held: CurrentShopRecord,
    work: WriteWork,
    once: Once,
) -> Response:
    """Take in a manifest; where something must be asked again, the form comes back as it was filled in."""
    doubts = doubts_of(fields, LOT_KEYS, held.currency, held.time_zone) | ({} if manifest else {"manifest": NO_FILE})
    if doubts or manifest is None:
        return page(request.scope, "lot_new.html", _new_lot(work, held, fields, doubts), 422)
    sent, settings = manifest, document_of(fields, LOT_KEYS, held.time_zone)

    def made() -> str:
        return (
            f"/lots/{submit_lot(work, held.id, sent.upload(), LotAsked(fields.get('name', ''), settings)).subject.id}"
        )

    return once(made, sent.filename.encode(), sent.sha256)


@router.get("/lots/{lot_id}")
def get_lot_page(
    request: Request,
    lot_id: str,
    held: CurrentShopRecord,
    work: ReadWork,
    sort: Annotated[Text, Query(max_length=50)] = SORTS[0][0],
    filter: Annotated[Text, Query(max_length=200)] = "",  # noqa: A002  the API's own name
    cursor: Cursor = None,
    whole: bool = False,
) -> Response:
    """The ceiling, why, hours, backlog, lines."""
    return page(request.scope, "lot/page.html", lot_view(work, held, lot_id, LinesShown(sort, filter, cursor, whole)))


@router.get("/lots/{lot_id}/problems")
def get_lot_problems_page(
    request: Request, lot_id: str, held: CurrentShopRecord, work: ReadWork, cursor: Cursor = None
) -> Response:
    """Every row of the manifest with a doubt."""
    found, lot = read_lot_problems(work, held.id, lot_id, 100, cursor), read_lot(work, held.id, lot_id)
    shown = {"lot": lot, "problems": found, "totals": stated_words(lot.file, held.currency)}
    return page(request.scope, "lot_problems.html", shown)


@router.get("/lots/{lot_id}/problems.csv")
def get_lot_problem_file(lot_id: str, shop: CurrentShop, work: ReadWork) -> Response:
    """The same as a file."""
    return csv_file(lot_problem_table(work, shop, lot_id), f"{read_lot(work, shop, lot_id).name}-problems")


@router.post("/lots/{lot_id}/columns", dependencies=[Proven])
def post_lot_columns(
    request: Request, lot_id: str, fields: Fields, held: CurrentShopRecord, work: WriteWork, once: Once
) -> Response:
    """Read the manifest again under these columns; what is missing or unusable is asked again."""
    lot = read_lot(work, held.id, lot_id)

    def made() -> str:
        store_lot_mapping(work, held.id, lot_id, named_columns(fields))
        return f"/lots/{lot_id}"

    def ask(form: Form) -> Response:
        shown = lot_view(work, held, lot_id, LinesShown()) | {"asking": form}
        return page(request.scope, "lot/page.html", shown, 422)

    return kept_or_asked(lines_question(lot.filename, lot.file), fields, lambda: once(made), ask)


@router.post("/lots/{lot_id}/evaluations", dependencies=[Proven])
def post_lot_terms(
    request: Request, lot_id: str, fields: Fields, held: CurrentShopRecord, work: WriteWork, once: Once
) -> Response:
    """Value the lot again; under changed terms where the form has them, and what it does not show stays as it was."""
    keys = [key for key in LOT_KEYS if key in fields]
    doubts = doubts_of(fields, keys, held.currency, held.time_zone)
    if doubts:
        shown = lot_view(work, held, lot_id, LinesShown())
        asked = {"fields": as_typed(shown["fields"], fields, doubts), "doubts": doubts}
        return page(request.scope, "lot/page.html", shown | asked, 422)

    def made() -> str:
        changed = document_of(fields, keys, held.time_zone), keys
        _value_again(work, held, lot_id, changed, is_today=fields.get("day") == TODAY)
        return f"/lots/{lot_id}"

    return once(made)


def _value_again(
    work: UnitOfWork, held: ShopRecord, lot_id: str, terms: tuple[Given, list[str]], *, is_today: bool
) -> None:
    """A lot whose reading was stopped is read first; one button does for both."""
    lot = read_lot(work, held.id, lot_id)
    if lot.lines == 0:
        store_lot_mapping(work, held.id, lot_id, lot.file.mapping)
    else:
        settings, keys = terms
        changed = with_unseen(settings, lot.given, keys) if keys else None
        submit_evaluation(work, held.id, lot_id, EvaluationAsked(settings=changed, from_now_on=is_today))


@router.post("/lots/{lot_id}/removal", dependencies=[Proven])
def post_removal(lot_id: str, shop: CurrentShop, work: WriteWork) -> Response:
    """Forget the lot."""
    delete_lot(work, shop, lot_id)
    return see("/")
