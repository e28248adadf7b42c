"""Fix how far to bid, with a time stamp: going higher later takes a reason, and shows first what it adds."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Any

from models.services.answer_words import raised_words
from models.services.plain_text import plain_text
from models.services.stored_draws import stored_draws
from models.services.typed_amount import digits_fault
from models.store.queries.ceiling_stamps import NewStamp
from models.store.records import Caller, CeilingStampRecord, EvaluationRecord, Page, ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Conflict, NeedsReason, Rejected
from models.values.in_force import in_force
from models.values.money import to_minor

LONGEST_REASON = 500
HIGHEST = Decimal(1_000_000_000)  # major units


@dataclass(frozen=True)
class CeilingAsked:
    """The amount as it was typed, in major units."""

    amount: Any
    reason: str | None = None


def fix_ceiling(work: UnitOfWork, caller: Caller, lot_id: str, asked: CeilingAsked) -> CeilingStampRecord:
    """Stamp the amount; NeedsReason where it is above the last one, or above an evaluation's own that is newer.

    Conflict if the lot has no evaluation, or must be valued again before going higher; Rejected for unusable amounts.
    """
    shop = caller.shop
    work.shops.lock(shop)  # of two at once the second sees the first
    lot = work.lots.require(shop, lot_id)
    if lot.evaluation_id is None:
        raise Conflict("This lot has no evaluation yet: there is no ceiling to fix.")
    currency = work.shops.require(shop).currency
    amount = checked_amount(asked.amount, currency)
    evaluation = work.evaluations.require(shop, lot.evaluation_id)
    own = to_minor(evaluation.document["bid_ceiling"]["amount"], currency)
    above, free = _free(lot.fixed, evaluation.number, own)
    reason = _checked_reason(asked.reason or "")
    if lot.fixed is not None and _is_the_same(lot.fixed, amount, evaluation.number, reason):
        return lot.fixed
    adds = {"above": above, **_adds(work, shop, evaluation, (free, amount))} if amount > free else None
    if adds is not None and reason is None:
        raise NeedsReason(_asks(adds, currency), adds)
    new = NewStamp(amount, evaluation.number, own, reason, adds, caller.email, caller.token)
    return work.ceilings.add(shop, lot_id, new)


def read_ceilings(
    work: UnitOfWork, shop: ShopId, lot_id: str, limit: int = 50, cursor: str | None = None
) -> Page[CeilingStampRecord]:
    """Every ceiling that was fixed for a lot, newest first."""
    return work.ceilings.page(shop, work.lots.require(shop, lot_id).id, limit, cursor)


def checked_amount(given: Any, currency: str) -> float:
    """A hammer price in whole minor units; Rejected unless it is above zero with no more digits than money has."""
    try:
        exact = Decimal(str(given))
    except InvalidOperation:
        exact = Decimal("NaN")
    if exact.is_finite() and exact > HIGHEST:
        reason = f"must be at most {HIGHEST:,}"
        raise Rejected(f"The ceiling to fix is more than {HIGHEST:,} {currency}: is it mistyped?", {"amount": reason})
    if not (exact.is_finite() and exact > 0):
        raise Rejected("The ceiling to fix is not an amount of money above zero.", {"amount": "must be above zero"})
    if reason := digits_fault(exact, currency):
        raise Rejected(f"The ceiling to fix has too many digits: {reason}.", {"amount": reason})
    return to_minor(exact, currency)


def _checked_reason(given: str) -> str | None:
    """The reason on one line; Rejected where it would not be kept whole."""
    reason = plain_text(given, LONGEST_REASON + 1)
    if len(reason) > LONGEST_REASON:
        raise Rejected(
            f"The reason is longer than {LONGEST_REASON} characters.",
            {"reason": f"at most {LONGEST_REASON} characters"},
        )
    return reason or None


def _is_the_same(last: CeilingStampRecord, amount: float, number: int, reason: str | None) -> bool:
    """Fixed at this amount under this evaluation already, with no new reason: nothing to put on record."""
    return last.amount == amount and last.evaluation_number == number and reason in (None, last.reason)


def _free(last: CeilingStampRecord | None, number: int, own: float) -> tuple[str, float]:
    """Up to where no reason is asked for: what was fixed under this evaluation, else that or its own, if less.

    A ceiling fixed before a newer evaluation that says less is no word on that one.
    """
    if last is None or (last.evaluation_number != number and own < last.amount):
        return "evaluation", own
    return "fixed", last.amount


def _adds(work: UnitOfWork, shop: ShopId, evaluation: EvaluationRecord, bids: tuple[float, float]) -> dict[str, Any]:
    """What going from one bid to the other changes, under the settings that the evaluation was made with.

    `breaks` are the goals that the higher bid does not meet.
    """
    from models.appraisal.raised import raised

    _, frozen = work.evaluations.frozen(shop, evaluation.id)
    settings = in_force(frozen.get("given", ()), frozen.get("learned", {})).settings
    told = raised(stored_draws(work, shop, evaluation.id), settings, *bids)
    by_rule = evaluation.document["bid_ceiling"]["by_rule"]
    high = Decimal(told["to"]["amount"])
    return told | {
        "breaks": [rule for rule, bid in by_rule.items() if bid is not None and Decimal(bid) < high],
        "asked_return": settings.goals.return_on_cash,
    }


def _asks(adds: Mapping[str, Any], currency: str) -> str:
    low, high, extra = adds["from"], adds["to"], adds["extra"]
    above = {"evaluation": "the ceiling of this evaluation", "fixed": "the ceiling that you fixed last"}[adds["above"]]
    return (
        f"{high['amount']} {currency} is above {above}, {low['amount']}. It adds {extra['cash_out']} to the cash you"
        f" pay; {raised_words(adds, lambda amount: f'{amount} {currency}')} Give a reason to fix it there."
    )
