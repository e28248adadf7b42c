"""A shop's settings under optimistic locking, and its backlog."""

from typing import Annotated, Any

from fastapi import APIRouter, Body, Header, Query, Response

from api.http.dependencies import CurrentShop, ReadWork, WriteWork
from api.http.etag import etag, version_matched
from api.http.schemas.settings import BacklogOut, SettingsOut
from api.http.schemas.texts import writable_content
from models.services.read_backlog import read_backlog
from models.services.shop_settings import put_settings, put_source_settings, read_settings, read_source_settings

router = APIRouter(tags=["settings"])


SourceName = Annotated[
    str | None, Query(max_length=200, description="Terms of this source, as a lot's `lot.source` names it.")
]


@router.get("/settings")
def get_settings(shop: CurrentShop, work: ReadWork, response: Response, source: SourceName = None) -> SettingsOut:
    """What was given for the shop, or for a source; what the history taught, what is assumed, what holds."""
    settings = read_settings(work, shop) if source is None else read_source_settings(work, shop, source)
    response.headers["etag"] = etag(settings.version)
    return SettingsOut.of(settings)


@router.put("/settings")
def put_shop_settings(
    document: Annotated[dict[str, Any], Body()],
    shop: CurrentShop,
    work: WriteWork,
    response: Response,
    if_match: Annotated[str, Header(description="The ETag that was read.")] = "",
    source: SourceName = None,
) -> SettingsOut:
    """Replace what was given for the shop, or for a source; a lot evaluated from now on reads it."""
    writable_content("settings", document)
    if source is None:
        settings = put_settings(work, shop, document, version_matched(if_match, read_settings(work, shop).version))
    else:
        version = version_matched(if_match, read_source_settings(work, shop, source).version)
        settings = put_source_settings(work, shop, source, document, version)
    response.headers["etag"] = etag(settings.version)
    return SettingsOut.of(settings)


@router.get("/backlog")
def get_backlog(shop: CurrentShop, work: ReadWork) -> BacklogOut:
    """What waits to be listed."""
    return BacklogOut.of(read_backlog(work, shop))
