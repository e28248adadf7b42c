"""One model version on a page of its own: what it rests on, and how near it would have been."""

from typing import Annotated, Any

from fastapi import APIRouter, Path, Request
from starlette.responses import Response

from api.http.dependencies import CurrentShopRecord, ReadWork
from api.http.pages.learning import GOING
from api.http.pages.render import page
from api.http.pages.words import about
from models.services.backtest_words import backtest_headline, backtest_parts, beaten_words
from models.services.read_jobs import get_latest_job
from models.services.read_model_versions import read_model_version
from models.store.records import ModelVersionRecord
from models.store.states import JobKind, JobState

router = APIRouter()


@router.get("/history/models/{number}")
def get_model_page(
    request: Request, number: Annotated[int, Path(ge=1, le=2**31 - 1)], held: CurrentShopRecord, work: ReadWork
) -> Response:
    """State, sales used, and the test on the shop's own past."""
    version = read_model_version(work, held.id, number)
    job = get_latest_job(work, held.id, version.id)
    test = job if job is not None and job.kind is JobKind.BACKTEST else None
    shown = {
        "version": version,
        "job": job if job is not None and job.state in GOING else None,
        "is_testing": test is not None and test.state in GOING,
        "test_failed": test.error if test is not None and test.state is JobState.FAILED else None,
        "zone": held.time_zone,
        "currency": held.currency,
    }
    return page(request.scope, "model_version.html", shown | _tested(version, held.currency))


def _tested(version: ModelVersionRecord, currency: str) -> dict[str, Any]:
    """The words of its backtest; nothing before there is one."""
    if version.backtest is None:
        return {}
    return {
        "backtest": version.backtest,
        "headline": backtest_headline(version.backtest),
        "beaten": beaten_words(version.backtest),
        "parts_told": backtest_parts(version.backtest, lambda amount: about(amount, currency)),
    }
