"""Sold history on pages: upload, columns, problems, and what was learned from it."""

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Path, Request, UploadFile
from starlette.responses import Response

from api.http.csv_file import csv_file
from api.http.dependencies import CurrentShop, CurrentShopRecord, Cursor, ReadWork, WriteWork
from api.http.pages.asking import Form, form_of, kept_or_asked
from api.http.pages.columns import named_columns, sales_question
from api.http.pages.forms import Fields, Proven, see
from api.http.pages.learning import learning
from api.http.pages.once_form import Once
from api.http.pages.render import page
from api.http.pages.stated_words import stated_words
from api.http.schemas.uploads import Received, received
from models.services.activate_model import activate_model
from models.services.problem_table import import_problem_table
from models.services.read_imports import read_import, read_imports, read_shop_cautions
from models.services.read_jobs import get_latest_job
from models.services.read_model_versions import read_model_versions
from models.services.read_problems import read_import_problems
from models.services.read_sales import count_sales
from models.services.store_mapping import store_import_mapping
from models.services.submit_import import submit_import
from models.services.submit_training import submit_training
from models.services.work_log import read_entries
from models.store.records import ShopRecord
from models.store.states import FileState
from models.store.unit_of_work import UnitOfWork

router = APIRouter()


def sold_file(file: UploadFile | None = None) -> Received | None:
    """The uploaded history, hashed before a transaction is open; None where no file was chosen."""
    return received(file) if file is not None and file.filename else None


@router.get("/history")
def get_history(request: Request, held: CurrentShopRecord, work: ReadWork, cursor: Cursor = None) -> Response:
    """Files, model versions and the way to add more."""
    return page(request.scope, "history.html", shown_history(work, held, cursor))


def shown_history(work: UnitOfWork, held: ShopRecord, cursor: Cursor = None) -> dict[str, Any]:
    """What the page shows."""
    return {
        "imports": read_imports(work, held.id, 30, cursor),
        "sales": count_sales(work, held.id),
        "versions": read_model_versions(work, held.id, 10),
        "learning": learning(work, held.id),
        "log": read_entries(work, held.id, 10),
        "cautions": read_shop_cautions(work, held.id),
        "zone": held.time_zone,
    }


@router.post("/history/imports", dependencies=[Proven])
def post_history(
    request: Request,
    file: Annotated[Received | None, Depends(sold_file)],
    held: CurrentShopRecord,
    work: WriteWork,
    once: Once,
) -> Response:
    """Take in a sold history."""
    if file is None:
        shown = shown_history(work, held) | {"no_file": "Choose the file of your sales first"}
        return page(request.scope, "history.html", shown, 422)
    sent = file

    def made() -> str:
        return f"/history/imports/{submit_import(work, held.id, sent.upload()).subject.id}"

    return once(made, sent.filename.encode(), sent.sha256)


@router.get("/history/imports/{import_id}")
def get_import_page(
    request: Request, import_id: str, held: CurrentShopRecord, work: ReadWork, cursor: Cursor = None
) -> Response:
    """One file: how far it is, what it asks, what was set aside."""
    return page(request.scope, "import.html", _import_shown(work, held, import_id, cursor))


def _import_shown(work: UnitOfWork, held: ShopRecord, import_id: str, cursor: Cursor = None) -> dict[str, Any]:
    made = read_import(work, held.id, import_id)
    return {
        "made": made,
        "job": get_latest_job(work, held.id, import_id) if made.state is FileState.READING else None,
        "learning": learning(work, held.id),
        "asking": form_of(sales_question(made.filename, made.file)),
        "problems": read_import_problems(work, held.id, import_id, 50, cursor),
        "totals": stated_words(made.file, held.currency),
        "zone": held.time_zone,
    }


@router.get("/history/imports/{import_id}/problems.csv")
def get_import_problem_file(import_id: str, shop: CurrentShop, work: ReadWork) -> Response:
    """Its rows with a doubt as a file."""
    name = read_import(work, shop, import_id).filename
    return csv_file(import_problem_table(work, shop, import_id), f"{name}-problems")


@router.post("/history/imports/{import_id}/columns", dependencies=[Proven])
def post_import_columns(
    request: Request, import_id: str, fields: Fields, held: CurrentShopRecord, work: WriteWork, once: Once
) -> Response:
    """Read the file again under these columns; what is missing or unusable is asked again."""
    file = read_import(work, held.id, import_id)

    def made() -> str:
        store_import_mapping(work, held.id, import_id, named_columns(fields))
        return f"/history/imports/{import_id}"

    def ask(form: Form) -> Response:
        shown = _import_shown(work, held, import_id) | {"asking": form}
        return page(request.scope, "import.html", shown, 422)

    return kept_or_asked(sales_question(file.filename, file.file), fields, lambda: once(made), ask)


@router.post("/history/trainings", dependencies=[Proven])
def post_training_form(shop: CurrentShop, work: WriteWork, once: Once) -> Response:
    """Learn again from all sales."""

    def made() -> str:
        submit_training(work, shop)
        return "/history"

    return once(made)


@router.post("/history/models/{number}/activation", dependencies=[Proven])
def post_activation_form(
    number: Annotated[int, Path(ge=1, le=2**31 - 1)], shop: CurrentShop, work: WriteWork
) -> Response:
    """Use this model version from now on."""
    activate_model(work, shop, number)
    return see("/history")
