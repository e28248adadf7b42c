"""A shop's settings under optimistic locking, and its backlog."""

from typing import Annotated, Any

from fastapi import APIRouter, Body, Header, Response

from api.http.dependencies import CurrentShop, ReadWork, WriteWork
from api.http.etag import etag, version_matched
from api.http.schemas.settings import BacklogOut, SettingsOut
from api.http.schemas.texts import writable_content
from models.services.read_backlog import read_backlog
from models.services.shop_settings import put_settings, read_settings

router = APIRouter(tags=["settings"])


@router.get("/settings")
def get_settings(shop: CurrentShop, work: ReadWork, response: Response) -> SettingsOut:
    """What the shop gave, what its history taught, what is assumed."""
    settings = read_settings(work, shop)
    response.headers["etag"] = etag(settings.version)
    return SettingsOut.of(settings)


@router.put("/settings")
def put_shop_settings(
    document: Annotated[dict[str, Any], Body()],
    shop: CurrentShop,
    work: WriteWork,
    response: Response,
    if_match: Annotated[str, Header(description="The ETag that was read.")] = "",
) -> SettingsOut:
    """Replace what the shop gave."""
    writable_content("settings", document)
    version = version_matched(if_match, read_settings(work, shop).version)
    settings = put_settings(work, shop, document, version)
    response.headers["etag"] = etag(settings.version)
    return SettingsOut.of(settings)


@router.get("/backlog")
def get_backlog(shop: CurrentShop, work: ReadWork) -> BacklogOut:
    """What waits to be listed."""
    return BacklogOut.of(read_backlog(work, shop))
