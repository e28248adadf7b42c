"""Queue a training on all sales read so far."""

import datetime as dt

from models.services.clock import local_date
from models.services.frozen_question import checked_seed
from models.services.reckoned_day import reckoned_day
from models.services.submitted import Submitted
from models.store.records import ModelVersionRecord, ShopId
from models.store.states import JobKind, Queue
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Conflict


def submit_training(
    work: UnitOfWork, shop: ShopId, as_of: dt.date | None = None, seed: int | None = None
) -> Submitted[ModelVersionRecord]:
    """A new model version with its job; Conflict if no sold history was read yet.

    The imports and entries of the work log that it reads are fixed now, so that a second run fits the same.
    """
    imports = work.imports.ready_ids(shop)
    if not imports:
        raise Conflict("There is no sold history yet: upload one first.")
    today = local_date(work.shops.require(shop).time_zone)
    version = work.models.add(shop, reckoned_day(as_of, today) or today, checked_seed(seed))
    read = {"imports": list(imports), "work_log": list(work.work_log.ids(shop))}
    job = work.jobs.queue(shop, JobKind.TRAIN_MODEL, Queue.LONG, version.id, read)
    return Submitted(version, job)
