"""Lots: manifests in, their state, columns and removal."""

from typing import Annotated

from fastapi import APIRouter, Body, Response

from api.http.csv_file import CsvResponse, Form, csv_file
from api.http.dependencies import CurrentShop, CurrentShopRecord, Cursor, Limit, ReadWork, WriteWork
from api.http.once import AnsweredOnce
from api.http.schemas.base import ListOut
from api.http.schemas.files import ProblemsOut
from api.http.schemas.lots import LotOut, LotSubmitted
from api.http.schemas.texts import Text
from api.http.schemas.uploads import LotFields
from models.services.delete_lot import delete_lot
from models.services.problem_table import lot_problem_table
from models.services.read_lots import read_lot, read_lots
from models.services.read_problems import read_lot_problems
from models.services.store_mapping import store_lot_mapping
from models.services.submit_lot import submit_lot

router = APIRouter(tags=["lots"])


@router.post("/lots", status_code=202, response_model=LotSubmitted)
def post_lot(form: LotFields, held: CurrentShopRecord, work: WriteWork, once: AnsweredOnce) -> LotSubmitted | Response:
    """Take in a manifest and value it."""

    def made() -> LotSubmitted:
        return LotSubmitted.of(submit_lot(work, held.id, form.manifest.upload(), form.asked), held.currency)

    return once(form.content(), made)


@router.get("/lots")
def get_lots(held: CurrentShopRecord, work: ReadWork, limit: Limit = 50, cursor: Cursor = None) -> ListOut[LotOut]:
    """Lots, newest first."""
    return ListOut[LotOut].of(read_lots(work, held.id, limit, cursor), lambda lot: LotOut.of(lot, held.currency))


@router.get("/lots/{lot_id}")
def get_lot(lot_id: str, held: CurrentShopRecord, work: ReadWork) -> LotOut:
    """One lot."""
    return LotOut.of(read_lot(work, held.id, lot_id), held.currency)


@router.delete("/lots/{lot_id}", status_code=204)
def delete_one_lot(lot_id: str, shop: CurrentShop, work: WriteWork) -> None:
    """Forget a lot with everything that hangs on it."""
    delete_lot(work, shop, lot_id)


@router.put("/lots/{lot_id}/mapping", status_code=202)
def put_lot_mapping(
    lot_id: str, mapping: Annotated[dict[Text, Text], Body()], held: CurrentShopRecord, work: WriteWork
) -> LotSubmitted:
    """Say which header is which column; the manifest is read again."""
    return LotSubmitted.of(store_lot_mapping(work, held.id, lot_id, mapping), held.currency)


@router.get("/lots/{lot_id}/problems.csv", response_class=CsvResponse)
def get_lot_problem_table(lot_id: str, shop: CurrentShop, work: ReadWork) -> Response:
    """All rows set aside or doubtful as one CSV file."""
    return csv_file(lot_problem_table(work, shop, lot_id), f"{read_lot(work, shop, lot_id).name}-problems")


@router.get("/lots/{lot_id}/problems", response_model=ProblemsOut)
def get_lot_problems(
    lot_id: str,
    held: CurrentShopRecord,
    work: ReadWork,
    limit: Limit = 50,
    cursor: Cursor = None,
    form: Form = "json",
) -> ProblemsOut | Response:
    """Rows set aside or doubtful, in the file's order; as CSV all of them at once."""
    if form == "csv":
        return get_lot_problem_table(lot_id, held.id, work)
    file = read_lot(work, held.id, lot_id).file
    return ProblemsOut.of(file, read_lot_problems(work, held.id, lot_id, limit, cursor), held.currency)
