"""The settings page: every setting of the registry with its sentence, unit, range and where its value comes from."""

from collections.abc import Mapping
from typing import Annotated, Any
from zoneinfo import available_timezones

from fastapi import APIRouter, Form, Request
from starlette.responses import Response

from api.http.dependencies import CurrentShopRecord, ReadWork, WriteWork
from api.http.pages.doubts import Doubt, as_typed, doubts_of
from api.http.pages.forms import Fields, Proven, see
from api.http.pages.render import page
from api.http.pages.setting_fields import document_of, fields_of, shop_groups, with_unseen
from models.services.shop_settings import put_settings, read_settings, set_time_zone
from models.store.records import ShopRecord
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Conflict, StaleVersion
from models.values.money import is_currency

router = APIRouter()


@router.get("/settings")
def get_settings_page(request: Request, held: CurrentShopRecord, work: ReadWork, saved: bool = False) -> Response:
    """One field a setting; empty fields show what holds instead."""
    return page(request.scope, "settings.html", _shown(work, held) | {"saved": saved})


@router.post("/settings", dependencies=[Proven])
def post_settings(
    request: Request, fields: Fields, version: Annotated[int, Form()], held: CurrentShopRecord, work: WriteWork
) -> Response:
    """Keep what was filled in; costs by category, which this page does not show as fields, stay as they are."""
    keys = ["currency", *(key for keys in shop_groups().values() for key in keys)]
    doubts = doubts_of(fields, keys, _currency(fields, held), held.time_zone) or _kept(
        work, held, fields, keys, version
    )
    if not doubts:
        return see("/settings?saved=true")
    shown = _shown(work, held, fields, doubts) | {"version": version}
    return page(request.scope, "settings.html", shown, 422)


def _currency(fields: Mapping[str, str], held: ShopRecord) -> str:
    """What the amounts of the form are in: as typed where that is a currency."""
    typed = fields.get("currency", "").strip().upper()
    return typed if is_currency(typed) else held.currency


def _kept(
    work: UnitOfWork, held: ShopRecord, fields: Mapping[str, str], keys: list[str], version: int
) -> dict[str, Doubt]:
    """Empty once it is kept; a currency that can no longer change is asked about like any other field."""
    document = with_unseen(document_of(fields, keys, held.time_zone), read_settings(work, held.id).given, keys)
    try:
        put_settings(work, held.id, document, version)
    except StaleVersion:
        raise
    except Conflict as error:  # told before anything is written
        return {"currency": Doubt(error.message)}
    if fields.get("time_zone", held.time_zone) != held.time_zone:
        set_time_zone(work, held.id, fields["time_zone"])
    return {}


def _shown(
    work: UnitOfWork,
    held: ShopRecord,
    typed: Mapping[str, str] | None = None,
    doubts: Mapping[str, Doubt] | None = None,
) -> dict[str, Any]:
    settings = read_settings(work, held.id)
    in_force = {one.key: one for one in settings.in_force}
    groups = {"": ["currency"]} | shop_groups()
    drawn = {
        name: as_typed(
            fields_of(keys, settings.given, in_force, held.currency, held.time_zone), typed or {}, doubts or {}
        )
        for name, keys in groups.items()
    }
    return {
        "currency_field": drawn.pop("")[0],
        "groups": drawn,
        "settings": settings,
        "version": settings.version,
        "zone": (typed or {}).get("time_zone", held.time_zone),
        "zones": sorted(available_timezones()),
        "doubts": doubts or {},
    }
