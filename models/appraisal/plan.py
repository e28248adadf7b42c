"""Which of several lots to bid for at once?  Each is read under its own terms, then they are chosen together."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from models.appraisal.plan_document import plan_document
from models.appraisal.plan_lots import LotToPlan, PlanTerms, read_lot
from models.decide.plan import bid_plan


@dataclass(frozen=True)
class BidPlan:
    """`document` is the answer in the contract's form; `chosen` are ids of lots."""

    chosen: tuple[str, ...]
    document: dict[str, Any]


def plan_lots(lots: Iterable[LotToPlan], terms: PlanTerms) -> BidPlan:
    """The plan for lots evaluated under one seed, model, day and draw format; their order changes nothing."""
    read = sorted((read_lot(lot) for lot in lots), key=lambda one: one.id)
    biddable = [one for one in read if one.amount > 0]
    found = bid_plan([one.candidate for one in biddable if one.candidate is not None], terms.limits)
    return BidPlan(tuple(biddable[at].id for at in found.chosen), plan_document(read, biddable, found, terms))
