"""One line of a lot on a page of its own: what was looked up for it, and what the seller will do with it."""

from typing import Annotated

from fastapi import APIRouter, Form, Request
from starlette.responses import Response

from api.http.dependencies import CurrentShopRecord, ReadWork, WriteWork
from api.http.pages.forms import Fields, Proven
from api.http.pages.line_view import asked_back, changes_of, line_view, refused
from api.http.pages.once_form import Once
from api.http.pages.render import page
from models.services.edit_line import edit_line
from models.values.errors import Rejected

router = APIRouter()


@router.get("/lots/{lot_id}/lines/{no}")
def get_line_page(request: Request, lot_id: str, no: int, held: CurrentShopRecord, work: ReadWork) -> Response:
    """What is known of a line, and the form for what the seller knows."""
    return page(request.scope, "lot/line.html", line_view(work, held, lot_id, no))


@router.post("/lots/{lot_id}/lines/{no}", dependencies=[Proven])
def post_line(
    request: Request,
    lot_id: str,
    no: int,
    fields: Fields,
    version: Annotated[int, Form()],
    held: CurrentShopRecord,
    work: WriteWork,
    once: Once,
) -> Response:
    """Keep it, then follow the lot being valued again; a price that cannot be read is asked for again."""
    doubtful = asked_back(work, held, lot_id, no, fields)
    if doubtful:
        return page(request.scope, "lot/line.html", doubtful, 422)

    def made() -> str:
        edited = edit_line(work, held.id, lot_id, no, changes_of(fields), version)
        return f"/jobs/{edited.submitted.job.id}"

    try:
        return once(made)
    except Rejected as error:
        return page(request.scope, "lot/line.html", refused(work, held, lot_id, no, fields, error), 422)
