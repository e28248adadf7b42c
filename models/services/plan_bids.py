"""Which of several lots to bid for at once, from the draws that their evaluations share; it is kept nowhere."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING, Any

from models.services.drawn_together import drawn_together
from models.services.staleness import is_stale
from models.services.stored_draws import stored_draws
from models.services.typed_amount import digits_fault
from models.store.queries.drawn import DrawnFrom
from models.store.records import LotRecord, ShopId
from models.store.states import FileState
from models.store.unit_of_work import UnitOfWork
from models.values.cautions import STANDING_CAUTIONS
from models.values.errors import Conflict, Rejected
from models.values.in_force import in_force
from models.values.money import in_words, to_minor
from models.values.problems import Caution
from models.values.settings import Goals

if TYPE_CHECKING:
    from models.appraisal.plan_lots import LotToPlan

MOST_LOTS = 200
MOST_HOURS = 100_000.0
MOST_CASH = Decimal(1_000_000_000)  # major units


@dataclass(frozen=True)
class PlanAsked:
    """Ids of the lots to choose from; cash in major units as it was typed, hours of listing."""

    lots: Sequence[str]
    cash_limit: Any
    listing_hours: float


def plan_bids(work: UnitOfWork, shop: ShopId, asked: PlanAsked) -> dict[str, Any]:
    """The plan in the contract's form, with what the evaluations rest on.

    NotTogether names the lots that must be valued again first, Conflict those that were never valued.
    """
    from models.appraisal.plan import plan_lots
    from models.appraisal.plan_lots import PlanTerms

    cash, hours = checked_limits(work, shop, asked)
    lots = _lots(work, shop, asked.lots)
    basis = drawn_together(work, shop, lots)
    terms = PlanTerms(cash, hours, _goals(work, shop), work.shops.require(shop).currency)
    found = plan_lots(_read(work, shop, lots, basis), terms)
    chosen = [lot for lot in lots if lot.id in found.chosen]
    first = [_told(one) for one in _of_the_shop(work, shop, chosen)]
    cautions = [*first, *found.document["cautions"], *map(_told, STANDING_CAUTIONS)]
    newest = basis[-1]
    rests_on = {"as_of": newest.as_of.isoformat(), "seed": newest.seed, "model_version": newest.model_version}
    return rests_on | found.document | {"cautions": cautions}


def _told(caution: Caution) -> dict[str, str]:
    return {"what": caution.what, "check": caution.check}


def checked_limits(work: UnitOfWork, shop: ShopId, asked: PlanAsked) -> tuple[float, float]:
    """Cash in minor units and hours; Rejected where they are no amount and no number of hours."""
    try:
        cash = Decimal(str(asked.cash_limit))
    except InvalidOperation:
        cash = Decimal("NaN")
    faults, currency = {}, work.shops.require(shop).currency
    if not (cash.is_finite() and 0 <= cash <= MOST_CASH):
        faults["cash_limit"] = "must be an amount of money, 0 or more"
    elif reason := digits_fault(cash, currency):
        faults["cash_limit"] = reason
    if not (math.isfinite(asked.listing_hours) and 0 <= asked.listing_hours <= MOST_HOURS):
        faults["listing_hours"] = f"must be hours from 0 to {MOST_HOURS:.0f}"
    if faults:
        raise Rejected("A plan needs the cash there is and the hours there are for listing.", faults)
    return to_minor(cash, currency), asked.listing_hours


def _lots(work: UnitOfWork, shop: ShopId, ids: Sequence[str]) -> tuple[LotRecord, ...]:
    """Each once, in the order asked; NotFound for another shop's."""
    wanted = tuple(dict.fromkeys(ids))
    if not 1 <= len(wanted) <= MOST_LOTS:
        raise Rejected(f"A plan is made of 1 to {MOST_LOTS} lots.", {"lots": f"must be 1 to {MOST_LOTS}"})
    lots = tuple(work.lots.require(shop, lot_id) for lot_id in wanted)
    never = [lot.name for lot in lots if lot.evaluation_id is None]
    if never:
        raise Conflict(f"Not valued yet: {', '.join(never)}. Leave them out, or wait until they are.")
    return lots


def _goals(work: UnitOfWork, shop: ShopId) -> Goals:
    """What the shop demands now: of all lots together, so no lot's own goals."""
    number = work.models.get_active_number(shop)
    learned = work.models.require(shop, number).learned if number is not None else {}
    currency = work.shops.require(shop).currency
    return in_force([{"currency": currency} | work.settings.get(shop).given], learned).settings.goals


def _read(
    work: UnitOfWork, shop: ShopId, lots: Sequence[LotRecord], basis: Sequence[DrawnFrom]
) -> Iterator["LotToPlan"]:
    """One lot's draws at a time: two hundred of them at once would fill the memory."""
    from models.appraisal.plan_lots import LotToPlan

    drawn = {one.lot_id: one for one in basis}
    for lot in lots:
        one = drawn[lot.id]
        try:
            stored = stored_draws(work, shop, one.evaluation_id)
        except Conflict as error:
            raise Conflict(f"{lot.name} was worked out by an earlier version: value it again, then plan.") from error
        settings = in_force(one.frozen.get("given", ()), one.frozen.get("learned", {})).settings
        yield LotToPlan(lot.id, lot.name, stored, settings, None if lot.fixed is None else lot.fixed.amount)


def _of_the_shop(work: UnitOfWork, shop: ShopId, chosen: Sequence[LotRecord]) -> Iterator[Caution]:
    """What changed since, and goods that several lots of the plan bring."""
    changed = [lot.name for lot in chosen if lot.state is not FileState.READY or is_stale(work, shop, lot)]
    if changed:
        yield Caution(
            f"Something changed since these were valued: {', '.join(changed)}.", "Value them again, then plan anew."
        )
    ids, currency = [lot.evaluation_id for lot in chosen if lot.evaluation_id], work.shops.require(shop).currency
    shared, twice = work.drawn.shared_items(shop, ids) if len(ids) > 1 else (0, 0.0)
    if shared:
        items = "1 item is" if shared == 1 else f"{shared} items are"
        counted = in_words(to_minor(twice, currency), currency)
        yield Caution(
            f"{items} in more than one lot of the plan. Each lot counts on the buyers of it as if the other lots had"
            f" none: up to {counted} of the expected cash may not come in time.",
            "Bid for one of these lots first; if you win it, value the others again.",
        )
