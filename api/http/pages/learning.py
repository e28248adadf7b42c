"""Where does learning stand?  Running, failed, or behind the sold history: every page says the same of it."""

from dataclasses import dataclass

from models.services.read_jobs import get_latest_job
from models.services.read_model_versions import get_active_model, read_model_versions
from models.services.staleness import UnknownSales, unknown_sales
from models.store.records import JobRecord, ModelVersionRecord, ShopId
from models.store.states import JobState, ModelState
from models.store.unit_of_work import UnitOfWork

GOING = (JobState.QUEUED, JobState.RUNNING)


@dataclass(frozen=True)
class Learning:
    """`failed`: the newest version, if it is no use; `unknown`: rows of sold history that `active` does not know."""

    job: JobRecord | None
    active: ModelVersionRecord | None
    failed: ModelVersionRecord | None
    unknown: UnknownSales
    knowing: ModelVersionRecord | None  # a kept version that knows them all


def learning(work: UnitOfWork, shop: ShopId) -> Learning:
    """What is being learned, what failed, what is not learned yet."""
    versions = read_model_versions(work, shop, 10).items
    active = get_active_model(work, shop)
    unknown = unknown_sales(work, shop, active) if active else UnknownSales(0, 0)
    behind = [one for one in versions if unknown.rows and active and one.fitted and one.number > active.number]
    failed = versions[0] if versions and versions[0].state is ModelState.FAILED else None
    return Learning(
        _job(work, shop, versions),
        active,
        failed,
        unknown,
        next((one for one in behind if one.facts.get("rows") and not unknown_sales(work, shop, one).rows), None),
    )


def _job(work: UnitOfWork, shop: ShopId, versions: tuple[ModelVersionRecord, ...]) -> JobRecord | None:
    """The job of the version that is being fitted, while it goes on."""
    training = next((one for one in versions if one.state is ModelState.TRAINING), None)
    job = get_latest_job(work, shop, training.id) if training else None
    return job if job is not None and job.state in GOING else None
