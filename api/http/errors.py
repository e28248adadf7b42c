"""Which status does each kind of error get?  The only place where the error tree meets HTTP (RFC 9457)."""

import re
from collections.abc import Mapping
from http import HTTPStatus
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse, Response

from api.http.pages.error_page import error_page, wants_page
from models.values import errors

STATUS: Mapping[type[errors.LotwrightError], int] = {
    errors.NotFound: 404,
    errors.StaleVersion: 412,
    errors.NotTogether: 409,
    errors.LeaseLost: 409,
    errors.Conflict: 409,
    errors.TooLarge: 413,
    errors.Unreadable: 422,
    errors.NeedsColumns: 422,
    errors.NeedsReason: 422,
    errors.Rejected: 422,
    errors.NotAllowed: 403,
    errors.NotSignedIn: 401,
    errors.Cancelled: 409,
    errors.DiskFull: 507,
    errors.LotwrightError: 500,
}
SENTENCES: Mapping[int, str] = {
    404: "There is nothing at this address.",
    405: "This address does not take that method.",
    500: "Something went wrong here; it was written to the service's log. Nothing you sent was half saved.",
}

HALF_A_FORM = "This form did not come through whole, or the address is not one of ours: open the page again."
CODES: Mapping[int, str] = {413: "too_large"}  # counted on the way in, the door's own code


def status_of(error: errors.LotwrightError) -> int:
    """Status of the nearest class of the tree that the table names."""
    return next(STATUS[kind] for kind in type(error).__mro__ if kind in STATUS)


def problem(status: int, detail: str, code: str, faults: Mapping[str, str] | None = None) -> dict[str, Any]:
    """An RFC 9457 body; `code` is the error's name for programs, `errors` names each fault."""
    body: dict[str, Any] = {
        "type": "about:blank",
        "title": HTTPStatus(status).phrase,
        "status": status,
        "detail": detail,
        "code": code,
    }
    if faults:
        body["errors"] = [{"key": key, "detail": reason} for key, reason in faults.items()]
    return body


def refusal(
    scope: Mapping[str, Any],
    status: int,
    detail: str,
    code: str,
    *,
    faults: Mapping[str, str] | None = None,
    headers: Mapping[str, str] | None = None,
) -> Response:
    """The answer to a refused request: a page for a person's browser, problem+json for everything else."""
    if wants_page(scope):
        return error_page(scope, status, detail, faults or {}, headers)
    body = problem(status, detail, code, faults)
    return JSONResponse(body, status, headers=headers, media_type="application/problem+json")


def register(app: FastAPI) -> None:
    """Every foreseen error leaves through here; the rest through `middleware.unforeseen`."""
    app.exception_handler(errors.LotwrightError)(_known)
    app.exception_handler(errors.NeedsReason)(_needs_reason)
    app.exception_handler(errors.NotTogether)(_not_together)
    app.exception_handler(RequestValidationError)(_invalid)
    app.exception_handler(HTTPException)(_plain)


def _known(request: Request, error: errors.LotwrightError) -> Response:
    faults = error.faults if isinstance(error, errors.Rejected) else None
    return refusal(request.scope, status_of(error), error.message, _code(error), faults=faults)


def _needs_reason(request: Request, error: errors.NeedsReason) -> Response:
    if wants_page(request.scope):
        return _known(request, error)
    body = problem(status_of(error), error.message, _code(error), error.faults) | {"adds": error.adds}
    return JSONResponse(body, body["status"], media_type="application/problem+json")


def _not_together(_: Request, error: errors.NotTogether) -> Response:
    """Only programs get here: the page asks again by itself."""
    body = problem(status_of(error), error.message, _code(error), error.lots) | {"evaluate_with": error.basis}
    return JSONResponse(body, body["status"], media_type="application/problem+json")


def _invalid(request: Request, error: RequestValidationError) -> Response:
    faults = {".".join(str(part) for part in one["loc"]): str(one["msg"]) for one in error.errors()}
    if wants_page(request.scope):  # names of fields and types help programs only
        return refusal(request.scope, 422, HALF_A_FORM, "invalid")
    return refusal(request.scope, 422, "What was sent does not fit this address.", "invalid", faults=faults)


def _plain(request: Request, error: HTTPException) -> Response:
    status = error.status_code
    detail = SENTENCES.get(status, str(error.detail))
    code = CODES.get(status) or re.sub(r"\W+", "_", HTTPStatus(status).phrase.lower())
    return refusal(request.scope, status, detail, code, headers=error.headers)


def _code(error: errors.LotwrightError) -> str:
    return re.sub(r"(?<!^)(?=[A-Z])", "_", type(error).__name__).lower()
