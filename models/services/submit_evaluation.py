"""Queue another evaluation of a lot whose manifest was read."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from models.services.clock import local_date
from models.services.frozen_question import checked_seed, freeze_question
from models.services.reckoned_day import reckoned_day
from models.services.submit_lot import checked_lot_settings
from models.services.submitted import Submitted
from models.store.records import LotRecord, ShopId
from models.store.states import FileState, JobKind, Queue
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Conflict


@dataclass(frozen=True)
class EvaluationAsked:
    """None keeps what the lot has; `settings` replace the lot's own from now on.

    `from_now_on`: a seed asked for stays with the lot, and a day that was fixed for it is given up, so that the next
    evaluation, after a line was changed, say, does not go back to them.
    """

    settings: Mapping[str, Any] | None = None
    model_version: int | None = None
    seed: int | None = None
    as_of: dt.date | None = None
    from_now_on: bool = False


def submit_evaluation(
    work: UnitOfWork, shop: ShopId, lot_id: str, asked: EvaluationAsked | None = None
) -> Submitted[LotRecord]:
    """Queue an evaluation; Conflict if the manifest is not read, or there is no such model yet."""
    asked = asked or EvaluationAsked()
    lot = work.lots.require(shop, lot_id)
    if lot.lines == 0:
        raise Conflict("The manifest of this lot has not been read yet.")
    as_of = reckoned_day(asked.as_of, local_date(work.shops.require(shop).time_zone))
    if asked.settings is not None:
        lot = work.lots.set_given(shop, lot_id, checked_lot_settings(work, shop, asked.settings))
    seed = lot.seed if asked.seed is None else checked_seed(asked.seed)
    if asked.from_now_on:
        lot = work.lots.free_day(shop, lot_id, seed)
    lot = replace(lot, seed=seed, as_of=as_of or lot.as_of)
    question = freeze_question(work, shop, lot, _model_number(work, shop, asked.model_version))
    job = work.jobs.queue(shop, JobKind.EVALUATE_LOT, Queue.QUICK, lot_id, question.as_payload())
    return Submitted(work.lots.set_state(shop, lot_id, FileState.EVALUATING), job)


def _model_number(work: UnitOfWork, shop: ShopId, asked: int | None) -> int:
    """The model version asked for, else the active one; Conflict if it is not fitted."""
    number = work.models.get_active_number(shop) if asked is None else asked
    if number is None:
        raise Conflict("There is no model yet: upload a sold history first.")
    if not work.models.require(shop, number).fitted:
        raise Conflict(f"Model version {number} is not fitted.")
    return number
