"""Take a model version into use; lots that wait for a model are evaluated with it."""

from models.services.frozen_question import freeze_question
from models.store.records import ModelVersionRecord, ShopId
from models.store.states import FileState, JobKind, Queue
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Conflict


def activate_model(work: UnitOfWork, shop: ShopId, number: int) -> ModelVersionRecord:
    """Activate a fitted version; Conflict if it is not fitted.  Lots evaluated before keep their evaluations."""
    work.shops.lock(shop)  # so that a lot being read either sees this model or is seen waiting
    if not work.models.require(shop, number).fitted:
        raise Conflict(f"Model version {number} is not fitted.")
    active = work.models.activate(shop, number)
    for lot in work.lots.waiting_for_model(shop):
        question = freeze_question(work, shop, lot, number)
        work.lots.set_state(shop, lot.id, FileState.EVALUATING)
        work.jobs.queue(shop, JobKind.EVALUATE_LOT, Queue.QUICK, lot.id, question.as_payload())
    return active
