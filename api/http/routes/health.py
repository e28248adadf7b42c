"""Is the process there, and can it do its work?  Open to everybody, so no path and no reason is told."""

from fastapi import APIRouter, Request
from starlette.responses import JSONResponse

from api.http.dependencies import CurrentEnvironment, store_of
from models.services.check import check

router = APIRouter(tags=["health"])


@router.get("/healthz")
def get_health() -> dict[str, str]:
    """The process answers."""
    return {"status": "ok"}


@router.get("/readyz")
def get_ready(request: Request, environment: CurrentEnvironment) -> JSONResponse:
    """Folder, database, tables and queue."""
    found = check(environment, store_of(request), request.app.state.publisher.answers)
    ready = all(one.good for one in found)
    body = {"status": "ready" if ready else "not ready", "checks": {one.name: one.good for one in found}}
    return JSONResponse(body, 200 if ready else 503)
