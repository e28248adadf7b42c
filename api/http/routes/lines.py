"""Lines of a lot with their estimates, and what the seller types in for one of them."""

from typing import Annotated, Any

from fastapi import APIRouter, Body, Header, Query, Response

from api.http.dependencies import CurrentShop, CurrentShopRecord, Cursor, Limit, ReadWork, WriteWork
from api.http.etag import etag, version_matched
from api.http.once import AnsweredOnce
from api.http.schemas.lines import LineGivenOut, LineIn, LineSubmitted
from api.http.schemas.texts import Text
from models.services.edit_line import edit_line, read_line_edit
from models.services.read_line import line_versions, read_line
from models.services.read_lines import LinesAsked, read_lines

router = APIRouter(tags=["lines"])


@router.get("/lots/{lot_id}/lines")
def get_lines(
    lot_id: str,
    shop: CurrentShop,
    work: ReadWork,
    sort: Annotated[Text, Query(max_length=50, description="A column; - before it for falling.")] = "no",
    filter: Annotated[Text, Query(max_length=200, description="Words, action:..., basis:...")] = "",  # noqa: A002  contract
    limit: Limit = 50,
    cursor: Cursor = None,
) -> dict[str, Any]:
    """Lines with their estimates once evaluated, as the manifest has them before; `etag` is for changing one."""
    page = read_lines(work, shop, lot_id, LinesAsked(sort, filter, limit, cursor))
    versions = line_versions(work, shop, lot_id)
    items = [{**line, "etag": etag(versions.get(line["source_row"], 1))} for line in page.items]
    return {"items": items, "next": page.next}


@router.get("/lots/{lot_id}/lines/{no}")
def get_line(lot_id: str, no: int, held: CurrentShopRecord, work: ReadWork, response: Response) -> dict[str, Any]:
    """One line; `given` is what was typed in for it so far, which its estimates may not know yet."""
    line = read_line(work, held.id, lot_id, no)
    given = LineGivenOut.of(no, line.edit, held.currency)
    response.headers["etag"] = given.etag
    return {**line.document, "etag": given.etag, "given": given.model_dump(include={"looked_up_prices", "action"})}


@router.patch("/lots/{lot_id}/lines/{no}", status_code=202, response_model=LineSubmitted)
def patch_line(
    lot_id: str,
    no: int,
    change: Annotated[LineIn, Body()],
    held: CurrentShopRecord,
    work: WriteWork,
    once: AnsweredOnce,
    if_match: Annotated[str, Header(description="The line's ETag that was read.")] = "",
) -> LineSubmitted | Response:
    """Keep looked-up prices and the seller's own choice for a line, and value the lot again with them."""

    def made() -> LineSubmitted:
        version = version_matched(if_match, read_line_edit(work, held.id, lot_id, no).version)
        edited = edit_line(work, held.id, lot_id, no, change.changes(), version)
        return LineSubmitted.of(no, edited, held.currency)

    return once([change.model_dump_json(exclude_unset=True).encode()], made)
