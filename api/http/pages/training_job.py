"""Is something being learned right now?"""

from models.services.read_jobs import get_latest_job
from models.services.read_model_versions import read_model_versions
from models.store.records import JobRecord, ShopId
from models.store.states import ModelState
from models.store.unit_of_work import UnitOfWork


def training_job(work: UnitOfWork, shop: ShopId) -> JobRecord | None:
    """The job of the model version that is being fitted, if any."""
    versions = read_model_versions(work, shop, 10).items
    training = next((one for one in versions if one.state is ModelState.TRAINING), None)
    return get_latest_job(work, shop, training.id) if training else None
