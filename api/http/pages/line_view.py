"""What does a page show of single lines?  What to look up first, and one line with what was typed in for it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from api.http.pages.spelled import plain_number
from models.services.read_line import LineRead, read_line
from models.services.read_lots import read_lot
from models.store.records import EvaluationRecord, ShopRecord
from models.store.unit_of_work import UnitOfWork
from models.values.errors import NotFound
from models.values.money import written

LOOK_UPS_SHOWN: Final = 5
PRICES_ASKED: Final = 3


@dataclass(frozen=True)
class Typed:
    """A line with what its form holds; `prices` are as many texts as the form has fields."""

    line: Mapping[str, Any]
    prices: tuple[str, ...]
    action: str
    version: int


@dataclass(frozen=True)
class LookUp:
    """One line worth looking up; `spread_removed` is a share of the doubt about the whole lot."""

    typed: Typed
    why: str
    spread_removed: float


def look_ups(work: UnitOfWork, held: ShopRecord, lot_id: str, evaluation: EvaluationRecord) -> tuple[LookUp, ...]:
    """The first few of what an evaluation says to look up; a line that the manifest no longer has is left out."""
    found = []
    for one in evaluation.document.get("research_first", ())[:LOOK_UPS_SHOWN]:
        try:
            line = read_line(work, held.id, lot_id, one["line"])
        except NotFound:
            continue
        found.append(LookUp(_typed(line, held.currency), one["why"], one["spread_removed"]))
    return tuple(found)


def line_view(work: UnitOfWork, held: ShopRecord, lot_id: str, no: int) -> dict[str, Any]:
    """Everything the template of one line needs."""
    typed = _typed(read_line(work, held.id, lot_id, no), held.currency)
    return {"lot": read_lot(work, held.id, lot_id), "typed": typed, "currency": held.currency}


def changes_of(fields: Mapping[str, str]) -> dict[str, Any]:
    """What a line's form asks for: every price that was typed, and the choice where the form has one."""
    named = sorted((name for name in fields if name.startswith("price-")), key=lambda name: (len(name), name))
    prices = [str(plain_number(fields[name])) for name in named if fields[name].strip()]
    choice = {"action": fields["action"] or None} if "action" in fields else {}
    return {"looked_up_prices": prices} | choice


def _typed(read: LineRead, currency: str) -> Typed:
    prices = [written(price, currency) for price in read.edit.looked_up]
    blanks = [""] * max(0, PRICES_ASKED - len(prices))
    return Typed(read.document, (*prices, *blanks), read.edit.action or "", read.edit.version)
