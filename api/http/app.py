"""The web process: JSON under /api/v1, pages at the root, one door before both."""

from collections.abc import AsyncIterator, Callable, Sequence
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from importlib.metadata import version
from typing import Any
from urllib.parse import urlsplit

from fastapi import APIRouter, Depends, FastAPI
from fastapi.security import HTTPBearer
from starlette.middleware import Middleware
from starlette.staticfiles import StaticFiles

from api.http import errors
from api.http.dependencies import Places
from api.http.keeper import keeper
from api.http.middleware.door import Door
from api.http.middleware.headers import SecurityHeaders
from api.http.middleware.unforeseen import Unforeseen
from api.http.pages import bid_plan as bid_plan_page
from api.http.pages import ceilings as ceiling_forms
from api.http.pages import history, home, sign_in
from api.http.pages import jobs as job_pages
from api.http.pages import lines as line_pages
from api.http.pages import lots as lot_pages
from api.http.pages import model_versions as model_pages
from api.http.pages import settings as settings_page
from api.http.pages import what_if as what_if_page
from api.http.pages import work_log as work_log_forms
from api.http.routes import (
    bid_plans,
    ceilings,
    evaluations,
    health,
    jobs,
    lines,
    lots,
    model_versions,
    sales,
    settings,
    work_log,
)
from api.http.schemas.base import Problem
from models.services.environment import Environment
from models.store.unit_of_work import Store
from worker.publish import Publisher

LOOPBACK = ("127.0.0.1", "localhost", "[::1]")
API_ROUTES = (sales, model_versions, lots, evaluations, ceilings, bid_plans, lines, jobs, settings, work_log)
PAGES = (
    home, history, work_log_forms, model_pages, bid_plan_page, lot_pages, ceiling_forms, what_if_page, line_pages,
    job_pages, settings_page,
)  # fmt: skip
PROBLEM_DOCUMENT: dict[str, Any] = {"application/problem+json": {"schema": Problem.model_json_schema()}}
ANY_ERROR: dict[int | str, dict[str, Any]] = {
    "default": {"description": "Problem details (RFC 9457)", "content": PROBLEM_DOCUMENT}
}


def create_app(
    environment: Environment, store: Store | None = None, publisher: Publisher | None = None, hosts: Sequence[str] = ()
) -> FastAPI:
    """The whole web application; `hosts` are names it may be called by beside loopback and the public address."""
    store = store or Store(environment.database)
    publisher = publisher or Publisher(environment.broker)
    names = {*LOOPBACK, *hosts, urlsplit(environment.public_url).hostname or "localhost"}
    door = Middleware(Door, keeper(environment, store), sorted(names), environment.max_upload_bytes)
    app = FastAPI(
        title="Lotwright",
        version=version("lotwright"),
        openapi_url="/api/v1/openapi.json",
        docs_url=None,  # they load scripts from elsewhere
        redoc_url=None,
        middleware=[Middleware(SecurityHeaders), Middleware(Unforeseen), door],
        lifespan=_closing(store),
    )
    app.state.environment, app.state.store, app.state.publisher = environment, store, publisher
    app.state.places = Places()
    errors.register(app)
    _include(app)
    return app


def _closing(store: Store) -> Callable[[FastAPI], AbstractAsyncContextManager[None]]:
    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        yield
        store.close()

    return lifespan


def _include(app: FastAPI) -> None:
    bearer = Depends(HTTPBearer(auto_error=False, description="A token of `lotwright token create`."))
    api = APIRouter(prefix="/api/v1", dependencies=[bearer], responses=ANY_ERROR)
    for module in API_ROUTES:
        api.include_router(module.router)
    app.include_router(api)
    app.include_router(health.router)
    app.include_router(sign_in.router, include_in_schema=False)
    for page in PAGES:
        app.include_router(page.router, include_in_schema=False)
    app.mount("/static", StaticFiles(packages=[("api.http", "static")]))
