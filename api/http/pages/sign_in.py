"""One-time sign-in.  Opening the address only shows a button, so that a link preview does not use it up."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from api.http.dependencies import CurrentEnvironment, ReadWork, WriteWork
from api.http.middleware.visitors import SESSION_COOKIE, session_secret
from api.http.pages.error_page import wants_page
from api.http.pages.forms import Proven, see
from api.http.pages.render import page
from models.services.sign_in import is_sign_in_link, redeem_sign_in_link, sign_out
from models.values.errors import NotSignedIn

router = APIRouter()


@router.get("/sign-in/{secret}")
def get_sign_in(request: Request, secret: str, work: ReadWork) -> Response:
    """The button; for a link that lets nobody in any more, what to do instead."""
    if is_sign_in_link(work, secret):
        return page(request.scope, "sign_in.html")
    return page(request.scope, "sign_in_needed.html", {"used": True}, 401)


@router.post("/sign-in/{secret}")
def post_sign_in(request: Request, secret: str, environment: CurrentEnvironment, work: WriteWork) -> Response:
    """Trade the address for a session."""
    try:
        session = redeem_sign_in_link(work, secret, environment.session_days)
    except NotSignedIn:
        if not wants_page(request.scope):
            raise
        return page(request.scope, "sign_in_needed.html", {"used": True}, 401)
    days = environment.session_days
    is_https = request.url.scheme == "https" or environment.public_url.startswith("https://")
    answer = see("/")
    answer.set_cookie(
        SESSION_COOKIE, session.secret, days * 86_400, secure=is_https, httponly=True, samesite="lax", path="/"
    )
    return answer


@router.post("/sign-out", dependencies=[Proven])
def post_sign_out(request: Request, work: WriteWork) -> Response:
    """End the session here and in the browser."""
    sign_out(work, session_secret(request.headers))
    answer = see("/")
    answer.delete_cookie(SESSION_COOKIE, path="/")
    return answer
