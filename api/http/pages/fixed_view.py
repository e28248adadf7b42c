"""What does the page of a lot show of the ceiling that was fixed, and what does its form hold?"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from api.http.pages.spelled import plain_number
from models.services.fix_ceiling import CeilingAsked, read_ceilings
from models.store.records import EvaluationRecord, LotRecord, ShopRecord
from models.store.unit_of_work import UnitOfWork
from models.values.errors import NeedsReason, Rejected
from models.values.money import written

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
    return {"stamps": told, "fix": FixForm(_prefilled(lot, evaluation, held.currency))}


def asked_of(fields: Mapping[str, str]) -> CeilingAsked:
    """What the form asks for."""
    return CeilingAsked(str(plain_number(fields.get("amount", ""))), fields.get("reason", ""))


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
