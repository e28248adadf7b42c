"""May this request come in?  Asked of the headers alone, before the body is read: a dependency would run after."""

import logging
from collections.abc import Sequence

from anyio import CapacityLimiter
from anyio.to_thread import run_sync
from starlette.datastructures import Headers
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from api.http.errors import refusal
from api.http.middleware import sizes
from api.http.middleware.visitors import (
    API,
    CSRF_HEADER,
    PROBES,
    SAFE_METHODS,
    Doorkeeper,
    Visitor,
    from_elsewhere,
    is_open,
    same,
    shown,
)

log = logging.getLogger("lotwright.http")
CLOSE = {"connection": "close"}  # what was not read must not be taken for the next request


class Door:
    """Raw ASGI: host, then who, then where from, then how much."""

    def __init__(self, app: ASGIApp, keeper: Doorkeeper, hosts: Sequence[str], upload_limit: int) -> None:
        self.app = app
        self.keeper = keeper
        self.hosts = frozenset(host.lower() for host in hosts)
        self.upload_limit = upload_limit
        self._threads = CapacityLimiter(2)  # of its own: a look-up must not take the threads that requests inside need

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        answer = await self._refused(scope, headers)
        logged = _logged(scope, send)
        if answer is not None:
            await answer(scope, receive, logged)
        else:
            limit = sizes.allowed_bytes(headers, self.upload_limit)
            await self.app(scope, sizes.counted(receive, limit), logged)

    async def _refused(self, scope: Scope, headers: Headers) -> Response | None:
        scope.setdefault("state", {})
        answer = self._strange_host(scope, headers) or _unreadable(scope)
        answer = answer or await self._unknown(scope, headers)
        answer = answer or _forged(scope, headers)
        return answer or self._oversized(scope, headers)

    def _strange_host(self, scope: Scope, headers: Headers) -> Response | None:
        host = headers.get("host", "").lower()
        name = host.rpartition(":")[0] if host.rpartition(":")[2].isdigit() else host
        if "*" in self.hosts or name in self.hosts or scope["path"] in PROBES:
            return None
        return refusal(scope, 400, "This service does not go by that name.", "strange_host", headers=CLOSE)

    async def _unknown(self, scope: Scope, headers: Headers) -> Response | None:
        path = scope["path"]
        credentials = shown(headers, path)
        known = credentials.token or credentials.session
        visitor = (
            await run_sync(self.keeper, credentials, limiter=self._threads) if known and not is_open(path) else None
        )
        scope["state"]["visitor"] = visitor
        if visitor is not None or is_open(path):
            return None
        sentence = "Sign in first." if credentials.session or not path.startswith(API) else "This needs a valid token."
        return refusal(scope, 401, sentence, "not_signed_in", headers=CLOSE | {"www-authenticate": "Bearer"})

    def _oversized(self, scope: Scope, headers: Headers) -> Response | None:
        limit = sizes.allowed_bytes(headers, self.upload_limit)
        if (sizes.stated_bytes(headers) or 0) <= limit:
            return None
        return refusal(scope, 413, sizes.too_much(limit), "too_large", headers=CLOSE)


def _unreadable(scope: Scope) -> Response | None:
    """Not every database can be asked for a NUL character."""
    if "\x00" not in scope["path"] and b"%00" not in scope["query_string"]:
        return None
    return refusal(scope, 400, "This address cannot be read.", "bad_request", headers=CLOSE)


def _forged(scope: Scope, headers: Headers) -> Response | None:
    """A cookie comes along by itself, so a write that relies on it must prove to come from our own page.

    Page forms carry their proof in the body: `api.http.pages.forms` checks it once that is read.
    """
    visitor: Visitor | None = scope["state"].get("visitor")
    if scope["method"] in SAFE_METHODS or (visitor is not None and not visitor.csrf):
        return None
    proven = not scope["path"].startswith(API) or visitor is None or same(headers.get(CSRF_HEADER, ""), visitor.csrf)
    if proven and not from_elsewhere(headers):
        return None
    return refusal(scope, 403, "This does not come from one of our own pages.", "forged", headers=CLOSE)


def _logged(scope: Scope, send: Send) -> Send:
    """One line an answer.  Of a path that carries a secret only its beginning is written."""
    path = "/sign-in/..." if scope["path"].startswith("/sign-in/") else scope["path"]

    async def logging_send(message: Message) -> None:
        if message["type"] == "http.response.start":
            log.info("%s %s %d", scope["method"], path.encode("unicode_escape").decode(), message["status"])
        await send(message)

    return logging_send
