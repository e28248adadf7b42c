"""Sold history: files in, their problems and columns, the sales themselves."""

from typing import Annotated

from fastapi import APIRouter, Body, Response

from api.http.csv_file import CsvResponse, Form, csv_file
from api.http.dependencies import CurrentShop, CurrentShopRecord, Cursor, Limit, ReadWork, WriteWork
from api.http.once import AnsweredOnce
from api.http.schemas.base import ListOut
from api.http.schemas.files import ProblemsOut
from api.http.schemas.sales import ImportOut, ImportSubmitted, SaleOut
from api.http.schemas.texts import Text
from api.http.schemas.uploads import ImportFields
from models.services.problem_table import import_problem_table
from models.services.read_imports import read_import, read_imports
from models.services.read_problems import read_import_problems
from models.services.read_sales import read_sales
from models.services.store_mapping import store_import_mapping
from models.services.submit_import import submit_import

router = APIRouter(tags=["sold history"])


@router.post("/sales/imports", status_code=202, response_model=ImportSubmitted)
def post_import(
    form: ImportFields, shop: CurrentShop, work: WriteWork, once: AnsweredOnce
) -> ImportSubmitted | Response:
    """Take in a sold history."""
    return once(form.content(), lambda: ImportSubmitted.of(submit_import(work, shop, form.file.upload(), form.mapping)))


@router.get("/sales/imports")
def get_imports(shop: CurrentShop, work: ReadWork, limit: Limit = 50, cursor: Cursor = None) -> ListOut[ImportOut]:
    """Imports, newest first."""
    return ListOut[ImportOut].of(read_imports(work, shop, limit, cursor), ImportOut.of)


@router.get("/sales/imports/{import_id}")
def get_import(import_id: str, shop: CurrentShop, work: ReadWork) -> ImportOut:
    """One import."""
    return ImportOut.of(read_import(work, shop, import_id))


@router.get("/sales/imports/{import_id}/problems.csv", response_class=CsvResponse)
def get_import_problem_table(import_id: str, shop: CurrentShop, work: ReadWork) -> Response:
    """All rows set aside or doubtful as one CSV file."""
    name = read_import(work, shop, import_id).filename
    return csv_file(import_problem_table(work, shop, import_id), f"{name}-problems")


@router.get("/sales/imports/{import_id}/problems", response_model=ProblemsOut)
def get_import_problems(
    import_id: str,
    held: CurrentShopRecord,
    work: ReadWork,
    limit: Limit = 50,
    cursor: Cursor = None,
    form: Form = "json",
) -> ProblemsOut | Response:
    """Rows set aside or doubtful, in the file's order; as CSV all of them at once."""
    if form == "csv":
        return get_import_problem_table(import_id, held.id, work)
    file = read_import(work, held.id, import_id).file
    return ProblemsOut.of(file, read_import_problems(work, held.id, import_id, limit, cursor), held.currency)


@router.put("/sales/imports/{import_id}/mapping", status_code=202)
def put_import_mapping(
    import_id: str, mapping: Annotated[dict[Text, Text], Body()], shop: CurrentShop, work: WriteWork
) -> ImportSubmitted:
    """Say which header is which column; the file is read again."""
    return ImportSubmitted.of(store_import_mapping(work, shop, import_id, mapping))


@router.get("/sales")
def get_sales(
    shop: CurrentShop, held: CurrentShopRecord, work: ReadWork, limit: Limit = 50, cursor: Cursor = None
) -> ListOut[SaleOut]:
    """All sales of the shop."""
    page = read_sales(work, shop, limit, cursor)
    return ListOut[SaleOut].of(page, lambda sale: SaleOut.of(sale, held.currency))
