"""Several lots at once on a page: choose them, say what cash and time there is, see which to bid for."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Any, Final
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, Query, Request
from starlette.responses import Response

from api.http.dependencies import CurrentShop, CurrentShopRecord, ReadWork, WriteWork
from api.http.pages.forms import Fields, Proven, see
from api.http.pages.home import LOTS_SHOWN, Listed, listed
from api.http.pages.once_form import Once
from api.http.pages.render import page
from api.http.pages.spelled import plain_number, too_fine
from api.http.schemas.texts import Text
from models.services.clock import utc_now
from models.services.drawn_together import evaluate_together
from models.services.plan_bids import MOST_LOTS, PlanAsked, plan_bids
from models.services.read_backlog import read_backlog
from models.services.read_lots import read_lot, read_lots
from models.store.records import LotRecord, ShopRecord
from models.store.states import FileState
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Conflict, NotTogether, Rejected

router = APIRouter()
ADDRESS: Final = "/bid-plan"
Chosen = Annotated[list[Text], Query(alias="lot", max_length=MOST_LOTS)]
Typed = Annotated[Text, Query(max_length=50)]


@dataclass(frozen=True)
class Wanted:
    """The form as it was sent: by address, so that a plan can be kept as a bookmark and needs no script."""

    lots: Sequence[str]
    cash: str
    hours: str

    @property
    def is_sent(self) -> bool:
        """False where the page is opened for the first time."""
        return bool(self.lots or self.cash or self.hours)

    def asked(self) -> PlanAsked:
        """As the service takes it; what is no number is refused there."""
        hours = plain_number(self.hours.strip())
        cash = plain_number(self.cash.strip())
        return PlanAsked(self.lots, cash, float("nan") if isinstance(hours, str) else float(hours))


def wanted(lots: Chosen = [], cash: Typed = "", hours: Typed = "") -> Wanted:  # noqa: B006  FastAPI's own way
    """The lots chosen, and what there is for them."""
    return Wanted(lots, cash, hours)


@router.get(ADDRESS)
def get_bid_plan(
    request: Request, held: CurrentShopRecord, work: ReadWork, sent: Annotated[Wanted, Depends(wanted)]
) -> Response:
    """The plan first where one was asked for, then the form."""
    chosen = [read_lot(work, held.id, lot_id) for lot_id in dict.fromkeys(sent.lots)]
    shown = _shown(work, held, sent, chosen)
    found = _planned(work, held, sent, chosen) if sent.is_sent else {}
    found |= {"ended": [row.lot for row in shown["rows"] if row.is_over and row.lot.id in shown["ticked"]]}
    status = 422 if found.get("faults") else 200
    return page(request.scope, "bid_plan.html", shown | found, status)


def _shown(work: UnitOfWork, held: ShopRecord, sent: Wanted, chosen: Sequence[LotRecord]) -> dict[str, Any]:
    now = utc_now()
    rows = listed(work, held, read_lots(work, held.id, LOTS_SHOWN).items, now)
    hours = [one.value for one in read_backlog(work, held.id).settings if one.key == "backlog.hours_per_week"]
    return {
        "shop": held,
        "now": now,
        "sent": sent,
        "rows": [row for row in rows if row.ceiling is not None],
        "ticked": {lot.id for lot in chosen} if sent.is_sent else {row.lot.id for row in rows if _is_open(row)},
        "pace": hours[0] if hours else None,
    }


def _is_open(row: Listed) -> bool:
    """What a seller most likely plans for."""
    return row.ceiling is not None and row.ceiling.verdict == "bid" and not row.is_over


def _planned(work: UnitOfWork, held: ShopRecord, sent: Wanted, chosen: Sequence[LotRecord]) -> dict[str, Any]:
    waiting = [lot for lot in chosen if lot.state is FileState.EVALUATING]
    if waiting:
        return {"waiting": waiting}
    try:
        if fine := too_fine(sent.cash, held.currency):
            return {"faults": {"cash": f"The cash is not clear: {fine}."}}
        return {"plan": plan_bids(work, held.id, sent.asked())}
    except NotTogether as error:
        return {"apart": [(lot, error.lots[lot.id]) for lot in chosen if lot.id in error.lots]}
    except Rejected as error:
        return {"faults": _faults(error.faults)}
    except Conflict as error:
        return {"hindered": error.message}


def _faults(faults: Mapping[str, str]) -> dict[str, str]:
    """What to mend, by the form's own fields."""
    words = {
        "lots": ("lots", "Choose at least one lot."),
        "cash_limit": ("cash", "Say how much cash there is: an amount, 0 or more."),
        "listing_hours": ("hours", "Say how many hours you have for listing: a number, 0 or more."),
    }
    return dict(words[key] for key in faults if key in words)


@router.post(f"{ADDRESS}/evaluations", dependencies=[Proven])
def post_evaluations(fields: Fields, shop: CurrentShop, work: WriteWork, once: Once) -> Response:
    """Value again what cannot be added to the others as it stands."""
    ids = fields.get("lots", "").split()[:MOST_LOTS]
    if not ids:
        return see(ADDRESS)
    query = [*(("lot", lot_id) for lot_id in ids), ("cash", fields.get("cash", "")), ("hours", fields.get("hours", ""))]

    def made() -> str:
        evaluate_together(work, shop, [read_lot(work, shop, lot_id) for lot_id in ids])
        return f"{ADDRESS}?{urlencode(query)}"

    return once(made)
