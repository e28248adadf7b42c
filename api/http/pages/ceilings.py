"""The form under the ceiling: how far the seller means to bid."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from api.http.dependencies import CurrentVisitor, WriteWork
from api.http.pages.fixed_view import asked_back, asked_of
from api.http.pages.forms import Fields, Proven
from api.http.pages.lot_view import LinesShown, lot_view
from api.http.pages.once_form import Once
from api.http.pages.render import page
from models.services.fix_ceiling import fix_ceiling
from models.values.errors import Rejected

router = APIRouter()


@router.post("/lots/{lot_id}/ceiling", dependencies=[Proven])
def post_ceiling_form(
    request: Request, lot_id: str, fields: Fields, visitor: CurrentVisitor, work: WriteWork, once: Once
) -> Response:
    """Fix it; going higher than before comes back once, with what it adds and a field for the reason."""

    def made() -> str:
        fix_ceiling(work, visitor.caller, lot_id, asked_of(fields, visitor.shop.currency))
        return f"/lots/{lot_id}#fixed"

    try:
        return once(made)
    except Rejected as error:
        shown = lot_view(work, visitor.shop, lot_id, LinesShown())
        return page(request.scope, "lot/page.html", shown | {"fix": asked_back(fields, error)}, 422)
