"""The same POST sent twice under one Idempotency-Key makes one thing and gets one answer."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Annotated, TypeVar

from fastapi import Depends, Header, Request
from pydantic import BaseModel
from starlette.responses import JSONResponse

from api.http.dependencies import CurrentShop, WriteWork
from models.services.idempotency import get_answer, keep_answer, request_fingerprint
from models.store.records import ShopId
from models.store.unit_of_work import UnitOfWork

A = TypeVar("A", bound=BaseModel)


@dataclass(frozen=True)
class Once:
    """Bound to one request's key and transaction."""

    work: UnitOfWork
    shop: ShopId
    key: str | None
    method: str
    path: str
    status: int

    def __call__(self, content: Sequence[bytes], make: Callable[[], A]) -> A | JSONResponse:
        """`make`'s answer, or the one given before; `content` is what makes two requests the same."""
        if self.key is None:
            return make()
        fingerprint = request_fingerprint(self.method, self.path, *content)
        kept = get_answer(self.work, self.shop, self.key, fingerprint)
        if kept is not None:
            return JSONResponse(dict(kept.body), kept.status, {"idempotent-replayed": "true"})
        made = make()
        body = made.model_dump(mode="json", by_alias=True)
        keep_answer(self.work, self.shop, self.key, fingerprint, self.status, body)
        return made


def once(
    request: Request,
    shop: CurrentShop,
    work: WriteWork,
    idempotency_key: Annotated[
        str | None, Header(description="Sent again with the same content: answered once.")
    ] = None,
) -> Once:
    """The key is the shop's own; what it is good for is one method, path and content."""
    status = request.scope["route"].status_code or 200
    return Once(work, shop, idempotency_key, request.method, request.url.path, status)


AnsweredOnce = Annotated[Once, Depends(once, scope="function")]
