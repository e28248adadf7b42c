"""What does a person see when something is refused?  The same words as the API's problem document."""

from collections.abc import Mapping
from typing import Any

from starlette.datastructures import Headers
from starlette.responses import HTMLResponse

from api.http.middleware.visitors import API, PROBES
from api.http.pages.render import page

_NOT_TYPED = ("csrf", "form-key", "version")


def wants_page(scope: Mapping[str, Any]) -> bool:
    """Anybody at the address of a page, unless only JSON is asked for; the API and the probes never get HTML."""
    accepts = Headers(raw=scope["headers"]).get("accept", "")
    of_programs = scope["path"].startswith(API) or scope["path"] in PROBES
    return not of_programs and ("text/html" in accepts or "json" not in accepts)


def error_page(
    scope: Mapping[str, Any],
    status: int,
    detail: str,
    faults: Mapping[str, str],
    headers: Mapping[str, str] | None,
) -> HTMLResponse:
    """The sign-in page for strangers, else the error in words."""
    template = "sign_in_needed.html" if status == 401 else "error.html"
    context = {"detail": detail, "faults": faults, "status": status, "typed": _typed(scope)}
    return page(scope, template, context, status, headers)


def _typed(scope: Mapping[str, Any]) -> list[str]:
    """What a refused form brought, without what the page itself put in."""
    fields: Mapping[str, str] = scope.get("state", {}).get("typed", {})
    return [text for name, text in fields.items() if text.strip() and name not in _NOT_TYPED and ":" not in name]
