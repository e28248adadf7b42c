"""The first page: the lots, what waits to be listed, what to do first."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from api.http.dependencies import CurrentShopRecord, Cursor, ReadWork
from api.http.pages.render import page
from models.services.read_backlog import read_backlog
from models.services.read_evaluations import read_evaluations
from models.services.read_imports import read_imports
from models.services.read_lots import read_lots
from models.services.read_model_versions import get_active_model
from models.store.records import EvaluationSummary, LotRecord, ShopId
from models.store.unit_of_work import UnitOfWork

router = APIRouter()


def current_ceiling(work: UnitOfWork, shop: ShopId, lot: LotRecord) -> EvaluationSummary | None:
    """What the lot's current evaluation says, None before the first."""
    if lot.evaluation_id is None:
        return None
    return next((one for one in read_evaluations(work, shop, lot.id).items if one.current), None)


@router.get("/")
def get_home(request: Request, held: CurrentShopRecord, work: ReadWork, cursor: Cursor = None) -> Response:
    """Lots, newest first."""
    lots = read_lots(work, held.id, 30, cursor)
    shown = {
        "shop": held,
        "lots": lots,
        "ceilings": {lot.id: current_ceiling(work, held.id, lot) for lot in lots.items},
        "backlog": read_backlog(work, held.id),
        "imports": read_imports(work, held.id, 1),
        "model": get_active_model(work, held.id),
    }
    return page(request.scope, "home.html", shown)
