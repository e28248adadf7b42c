"""The settings page: every setting of the registry with its sentence, unit, range and where its value comes from."""

from typing import Annotated

from fastapi import APIRouter, Form, Request
from starlette.responses import Response

from api.http.dependencies import CurrentShopRecord, ReadWork, WriteWork
from api.http.pages.forms import Fields, Proven, see
from api.http.pages.render import page
from api.http.pages.setting_fields import document_of, fields_of, shop_groups, with_unseen
from models.services.shop_settings import put_settings, read_settings

router = APIRouter()


@router.get("/settings")
def get_settings_page(request: Request, held: CurrentShopRecord, work: ReadWork, saved: bool = False) -> Response:
    """One field a setting; empty fields show what holds instead."""
    settings = read_settings(work, held.id)
    in_force = {one.key: one for one in settings.in_force}
    groups = {
        name: fields_of(keys, settings.given, in_force, held.currency, held.time_zone)
        for name, keys in shop_groups().items()
    }
    currency = fields_of(["currency"], settings.given, in_force, held.currency, held.time_zone)
    shown = {"groups": groups, "currency_field": currency[0], "settings": settings, "shop": held, "saved": saved}
    return page(request.scope, "settings.html", shown)


@router.post("/settings", dependencies=[Proven])
def post_settings(
    fields: Fields, version: Annotated[int, Form()], held: CurrentShopRecord, work: WriteWork
) -> Response:
    """Keep what was filled in; costs by category, which this page does not show as fields, stay as they are."""
    keys = ["currency", *(key for keys in shop_groups().values() for key in keys)]
    kept = read_settings(work, held.id).given
    put_settings(work, held.id, with_unseen(document_of(fields, keys, held.time_zone), kept, keys), version)
    return see("/settings?saved=true")
