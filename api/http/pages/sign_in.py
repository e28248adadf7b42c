"""One-time sign-in.  Opening the address only shows a button, so that a link preview does not use it up."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from api.http.dependencies import CurrentEnvironment, WriteWork
from api.http.middleware.visitors import SESSION_COOKIE, session_secret
from api.http.pages.forms import Proven, see
from api.http.pages.render import page
from models.services.sign_in import redeem_sign_in_link, sign_out

router = APIRouter()


@router.get("/sign-in/{secret}")
def get_sign_in(request: Request, secret: str) -> Response:
    """The button."""
    return page(request.scope, "sign_in.html")


@router.post("/sign-in/{secret}")
def post_sign_in(request: Request, secret: str, environment: CurrentEnvironment, work: WriteWork) -> Response:
    """Trade the address for a session."""
    session = redeem_sign_in_link(work, secret, environment.session_days)
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
