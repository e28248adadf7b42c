"""The first page: the lots, what waits to be listed, what to do first."""

import datetime as dt
from dataclasses import dataclass

from fastapi import APIRouter, Request
from starlette.responses import Response

from api.http.dependencies import CurrentShopRecord, Cursor, ReadWork
from api.http.pages.fixed_view import Above, above_now
from api.http.pages.learning import learning
from api.http.pages.lot_view import CANCELLED, is_over
from api.http.pages.render import page
from models.services.clock import utc_now
from models.services.read_backlog import read_backlog
from models.services.read_evaluations import read_evaluations
from models.services.read_imports import read_imports
from models.services.read_lots import read_lots
from models.services.staleness import Stale, is_stale
from models.store.records import EvaluationSummary, LotRecord, ShopId, ShopRecord
from models.store.unit_of_work import UnitOfWork
from models.values.in_force import as_written
from models.values.settings import REGISTRY

router = APIRouter()
LOTS_SHOWN = 50  # some weeks of buying: a lot still open to bids is among them


@dataclass(frozen=True)
class Listed:
    """A lot with what its row says; `closes_at` blank where it is not known."""

    lot: LotRecord
    ceiling: EvaluationSummary | None
    stale: tuple[Stale, ...]
    closes_at: str
    current_bid: str
    is_over: bool
    above: Above | None  # a fixed ceiling above the present one
    is_cancelled: bool


def current_ceiling(work: UnitOfWork, shop: ShopId, lot: LotRecord) -> EvaluationSummary | None:
    """What the lot's current evaluation says, None before the first."""
    if lot.evaluation_id is None:
        return None
    return next((one for one in read_evaluations(work, shop, lot.id).items if one.current), None)


def listed(work: UnitOfWork, held: ShopRecord, lots: tuple[LotRecord, ...], now: dt.datetime) -> list[Listed]:
    """Open lots first, the soonest closing before the others; then the rest as they came, newest first."""
    rows = [_row(work, held, lot, now) for lot in lots]
    still_open = [one for one in rows if one.closes_at and not one.is_over]
    still_open.sort(key=lambda one: dt.datetime.fromisoformat(one.closes_at))
    return still_open + [one for one in rows if not one.closes_at or one.is_over]


def _row(work: UnitOfWork, held: ShopRecord, lot: LotRecord, now: dt.datetime) -> Listed:
    shop, currency = held.id, held.currency
    ceiling, terms = current_ceiling(work, shop, lot), lot.given.get("lot", {})
    closes_at, bid = terms.get("closes_at") or "", terms.get("current_bid")
    return Listed(
        lot=lot,
        ceiling=ceiling,
        stale=is_stale(work, shop, lot),
        closes_at=closes_at,
        current_bid=as_written(REGISTRY["lot.current_bid"], bid, currency) if bid else "",
        is_over=is_over(closes_at, now),
        above=_above(lot, ceiling, currency),
        is_cancelled=lot.error == CANCELLED,
    )


def _above(lot: LotRecord, ceiling: EvaluationSummary | None, currency: str) -> Above | None:
    return None if ceiling is None else above_now(lot, ceiling.number, ceiling.amount, currency)


@router.get("/")
def get_home(request: Request, held: CurrentShopRecord, work: ReadWork, cursor: Cursor = None) -> Response:
    """Lots: what closes next comes first."""
    lots, now = read_lots(work, held.id, LOTS_SHOWN, cursor), utc_now()
    shown = {
        "shop": held,
        "lots": listed(work, held, lots.items, now),
        "now": now,
        "next": lots.next,
        "backlog": read_backlog(work, held.id),
        "imports": read_imports(work, held.id, 1),
        "learning": learning(work, held.id),
    }
    return page(request.scope, "home.html", shown)
