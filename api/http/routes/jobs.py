"""Background work."""

from fastapi import APIRouter

from api.http.dependencies import CurrentShop, Cursor, Limit, ReadWork, WriteWork
from api.http.schemas.base import ListOut
from api.http.schemas.jobs import JobOut
from models.services.cancel_job import cancel_job
from models.services.read_jobs import read_job, read_jobs

router = APIRouter(tags=["jobs"])


@router.get("/jobs")
def get_jobs(shop: CurrentShop, work: ReadWork, limit: Limit = 50, cursor: Cursor = None) -> ListOut[JobOut]:
    """Jobs, newest first."""
    return ListOut[JobOut].of(read_jobs(work, shop, limit, cursor), JobOut.of)


@router.get("/jobs/{job_id}")
def get_job(job_id: str, shop: CurrentShop, work: ReadWork) -> JobOut:
    """One job."""
    return JobOut.of(read_job(work, shop, job_id))


@router.post("/jobs/{job_id}/cancel")
def post_cancel(job_id: str, shop: CurrentShop, work: WriteWork) -> JobOut:
    """Ask a job to stop: at once if it waits, at its next step if it runs."""
    return JobOut.of(cancel_job(work, shop, job_id))
