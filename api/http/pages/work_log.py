"""The small form on the history page: "40 items in 5 hours", and taking an entry back."""

import datetime as dt
from collections.abc import Mapping
from decimal import Decimal

from fastapi import APIRouter, Request
from starlette.responses import Response

from api.http.dependencies import CurrentShop, CurrentShopRecord, WriteWork
from api.http.pages.forms import Fields, Proven, see
from api.http.pages.history import shown_history
from api.http.pages.once_form import Once
from api.http.pages.render import page
from api.http.pages.spelled import THOUSAND, plain_number
from models.services.work_log import EntryAsked, add_entry, delete_entry
from models.values.errors import Rejected

router = APIRouter()
HERE = "/history#hours"


@router.post("/history/work-log", dependencies=[Proven])
def post_entry_form(request: Request, fields: Fields, held: CurrentShopRecord, work: WriteWork, once: Once) -> Response:
    """Keep it; what cannot be meant comes back with its reason and everything else as it was typed."""

    def made() -> str:
        add_entry(work, held.id, asked_of(fields))
        return HERE

    try:
        return once(made)
    except Rejected as error:
        back = {"typed": fields, "faults": error.faults, "message": error.message}
        return page(request.scope, "history.html", shown_history(work, held) | {"entry": back}, 422)


@router.post("/history/work-log/{entry_id}/removal", dependencies=[Proven])
def post_removal_form(entry_id: str, shop: CurrentShop, work: WriteWork) -> Response:
    """Take it back."""
    delete_entry(work, shop, entry_id)
    return see(HERE)


def asked_of(fields: Mapping[str, str]) -> EntryAsked:
    """What was typed; Rejected, naming each field, where it is no number or day."""
    faults: dict[str, str] = {}
    items, hours = _number(fields, "items", faults), _number(fields, "hours", faults)
    if items is not None and items % 1:
        faults.setdefault("items", "must be a whole number")
    on = _day(fields, faults)
    if faults or items is None or hours is None:
        raise Rejected("This entry was not kept yet.", faults)
    kind, category, note = (fields.get(name, "").strip() for name in ("kind", "category", "note"))
    return EntryAsked(int(items), float(hours), on, kind, category, note)


def _number(fields: Mapping[str, str], name: str, faults: dict[str, str]) -> Decimal | None:
    """Read as every other field reads it; `1.200` may be 1200 or 1.2, and only who typed it knows."""
    typed = plain_number(fields.get(name, ""))
    if isinstance(typed, str):
        faults[name] = "must be a number"
        return None
    if typed.as_tuple().exponent == -THOUSAND:
        faults[name] = f"can be read in two ways: write {typed.scaleb(THOUSAND):f} or {typed.normalize():f}"
    return typed


def _day(fields: Mapping[str, str], faults: dict[str, str]) -> dt.date | None:
    typed = fields.get("on", "").strip()
    try:
        return dt.date.fromisoformat(typed) if typed else None
    except ValueError:
        faults["on"] = "must be a day such as 2026-07-01"
        return None
