"""One job on a page of its own."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from api.http.dependencies import CurrentShop, CurrentShopRecord, ReadWork, WriteWork
from api.http.pages.forms import Proven, see
from api.http.pages.render import page
from models.services.cancel_job import cancel_job
from models.services.read_jobs import read_job
from models.store.records import JobRecord
from models.store.states import JobKind

router = APIRouter()


def subject_address(job: JobRecord) -> str:
    """The page of what the job works on."""
    if job.kind is JobKind.EVALUATE_LOT:
        return f"/lots/{job.subject_id}"
    return f"/history/imports/{job.subject_id}" if job.kind is JobKind.IMPORT_SALES else "/history"


@router.get("/jobs/{job_id}")
def get_job_page(request: Request, job_id: str, held: CurrentShopRecord, work: ReadWork) -> Response:
    """How far it is; once it has ended, a link to what it made."""
    job = read_job(work, held.id, job_id)
    return page(request.scope, "job.html", {"job": job, "then": subject_address(job), "zone": held.time_zone})


@router.post("/jobs/{job_id}/cancellation", dependencies=[Proven])
def post_cancellation(job_id: str, shop: CurrentShop, work: WriteWork) -> Response:
    """Ask it to stop."""
    return see(subject_address(cancel_job(work, shop, job_id)))
