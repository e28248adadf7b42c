"""What does the page of a lot show of the ceiling that was fixed, and what does its form hold?"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from api.http.pages.spelled import plain_number, too_fine
from models.services.fix_ceiling import CeilingAsked, read_ceilings
from models.store.records import EvaluationRecord, LotRecord, ShopRecord
from models.store.unit_of_work import UnitOfWork
from models.values.errors import NeedsReason, Rejected
from models.values.money import to_minor, written

STAMPS_SHOWN: Final = 20


@dataclass(frozen=True)
class FixForm:
    """The form as it is drawn: `doubt` and `adds` where it was sent and asks back."""

    amount: str
    reason: str = ""
    doubt: str = ""
    adds: Mapping[str, Any] | None = None


def fixed_view(work: UnitOfWork, held: ShopRecord, lot: LotRecord, evaluation: EvaluationRecord) -> dict[str, Any]:
    """What its part of the template needs; amounts as documents write them."""
    stamps = read_ceilings(work, held.id, lot.id, STAMPS_SHOWN).items if lot.fixed else ()
    told = [vars(one) | {"amount": written(one.amount, held.currency)} for one in stamps]
    ceiling = evaluation.document["bid_ceiling"]
    return {
        "stamps": told,
        "fix": FixForm(_prefilled(lot, evaluation, held.currency)),
        "above": above_now(lot, evaluation.number, ceiling["amount"], held.currency),
    }


@dataclass(frozen=True)
class Above:
    """A fixed ceiling above the present one; amounts as documents write them."""

    limit: str
    more: str  # by how much
    is_pass: bool  # nothing meets the goals now
    is_meant: bool  # fixed so high under this very evaluation, with a reason


def above_now(lot: LotRecord, number: int, ceiling: str, currency: str) -> Above | None:
    """None where nothing was fixed, or nothing above what now meets the goals; `ceiling` of evaluation `number`."""
    last, own = lot.fixed, to_minor(ceiling, currency)
    if last is None or last.amount <= own:
        return None
    more = written(last.amount - own, currency)
    return Above(written(last.amount, currency), more, own <= 0, last.evaluation_number == number)


def asked_of(fields: Mapping[str, str], currency: str) -> CeilingAsked:
    """What the form asks for; Rejected for an amount that can be read in two ways."""
    typed = fields.get("amount", "")
    if fine := too_fine(typed, currency):
        raise Rejected(f"The ceiling to fix is not clear: {fine}.", {"amount": fine})
    return CeilingAsked(str(plain_number(typed)), fields.get("reason", ""))


def asked_back(fields: Mapping[str, str], error: Rejected) -> FixForm:
    """The form as it was sent, with why it was not done."""
    form = FixForm(fields.get("amount", ""), fields.get("reason", ""))
    if isinstance(error, NeedsReason):
        return replace(form, adds=error.adds)
    return replace(form, doubt=error.message)


def _prefilled(lot: LotRecord, evaluation: EvaluationRecord, currency: str) -> str:
    """What was fixed last, else the ceiling; blank on pass."""
    if lot.fixed is not None:
        return written(lot.fixed.amount, currency)
    ceiling = evaluation.document["bid_ceiling"]
    return str(ceiling["amount"]) if ceiling["verdict"] == "bid" else ""
