"""Who is asking, and what may be asked without saying so?"""

import hmac
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from starlette.datastructures import Headers
from starlette.requests import cookie_parser

from models.store.records import Caller, ShopRecord

API: Final = "/api/v1/"
SESSION_COOKIE: Final = "lotwright_session"
CSRF_HEADER: Final = "x-csrf-token"
SAFE_METHODS: Final = frozenset({"GET", "HEAD", "OPTIONS"})
PROBES: Final = frozenset({"/healthz", "/readyz"})
OPEN: Final = PROBES | {"/api/v1/openapi.json"}
OPEN_BELOW: Final = ("/static/", "/sign-in/")


@dataclass(frozen=True)
class Credentials:
    """What a request shows: at most one of the two is set."""

    token: str = ""
    session: str = ""


@dataclass(frozen=True)
class Visitor:
    """Somebody we know; `csrf` is blank for a bearer token, which no browser sends by itself."""

    caller: Caller
    shop: ShopRecord
    csrf: str = ""


Doorkeeper = Callable[[Credentials], Visitor | None]


def is_open(path: str) -> bool:
    """May anybody ask for this path?"""
    return path in OPEN or path.startswith(OPEN_BELOW)


def shown(headers: Headers, path: str) -> Credentials:
    """A bearer token goes before the cookie; pages take the cookie only."""
    scheme, _, token = headers.get("authorization", "").partition(" ")
    if path.startswith(API) and scheme:
        return Credentials(token=token.strip() if scheme.lower() == "bearer" else "")
    return Credentials(session=session_secret(headers))


def session_secret(headers: Headers) -> str:
    """The session cookie, blank where there is none."""
    return cookie_parser(headers.get("cookie", "")).get(SESSION_COOKIE, "")


def same(given: str, wanted: str) -> bool:
    """Equal and not blank, in constant time."""
    return bool(wanted) and hmac.compare_digest(given.encode(), wanted.encode())


def from_elsewhere(headers: Headers) -> bool:
    """Does another site's page send this?  Browsers say so in these two headers; programs send neither."""
    origin = headers.get("origin")
    if origin is not None and origin.partition("://")[2] != headers.get("host", ""):
        return True
    return headers.get("sec-fetch-site", "none") not in ("same-origin", "none")
