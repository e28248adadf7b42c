"""What does a page show of single lines?  What to look up first, and one line with what was typed in for it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from api.http.pages.spelled import plain_number, too_fine
from models.services.edit_line import checked_prices
from models.services.read_line import LineRead, read_line
from models.services.read_lots import read_lot
from models.store.records import EvaluationRecord, ShopRecord
from models.store.unit_of_work import UnitOfWork
from models.values.errors import NotFound, Rejected
from models.values.money import written

LOOK_UPS_SHOWN: Final = 5
PRICES_ASKED: Final = 3
HELPS_FROM: Final = 0.01  # of the doubt about the whole lot


@dataclass(frozen=True)
class Typed:
    """A line with what its form holds; `prices` are as many texts as the form has fields."""

    line: Mapping[str, Any]
    prices: tuple[str, ...]
    action: str
    version: int
    doubts: tuple[str, ...] = ()  # one a price, blank where it can be used


@dataclass(frozen=True)
class LookUp:
    """One line worth looking up; `spread_removed` is a share of the doubt about the whole lot."""

    typed: Typed
    why: str
    spread_removed: float

    @property
    def helps(self) -> bool:
        """False where a sold price would take next to nothing off the doubt."""
        return self.spread_removed >= HELPS_FROM


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


def asked_back(work: UnitOfWork, held: ShopRecord, lot_id: str, no: int, fields: Mapping[str, str]) -> dict[str, Any]:
    """The same as it was sent, each price that cannot be used with its reason; empty where all can."""
    prices = tuple(fields[name].strip() for name in _price_names(fields))
    doubts = tuple(_doubt(price, held.currency) for price in prices)
    if not any(doubts):
        return {}
    shown = line_view(work, held, lot_id, no)
    action = fields.get("action", shown["typed"].action)
    return shown | {"typed": replace(shown["typed"], prices=prices, doubts=doubts, action=action)}


def refused(
    work: UnitOfWork, held: ShopRecord, lot_id: str, no: int, fields: Mapping[str, str], error: Rejected
) -> dict[str, Any]:
    """The same as it was sent, with why it was not kept."""
    shown = line_view(work, held, lot_id, no)
    prices = tuple(fields[name].strip() for name in _price_names(fields))
    action = fields.get("action", shown["typed"].action)
    return shown | {"typed": replace(shown["typed"], prices=prices, action=action), "refused": error.message}


def _doubt(price: str, currency: str) -> str:
    """Why a looked-up price cannot be used; blank where it can, or is not given."""
    if not price:
        return ""
    if fine := too_fine(price, currency):
        return fine
    try:
        checked_prices([str(plain_number(price))], currency)
    except Rejected as error:
        return f"{error.message.rstrip('.')}: {error.faults['looked_up_prices']}"
    return ""


def _price_names(fields: Mapping[str, str]) -> list[str]:
    return sorted((name for name in fields if name.startswith("price-")), key=lambda name: (len(name), name))


def changes_of(fields: Mapping[str, str]) -> dict[str, Any]:
    """What a line's form asks for: every price that was typed, and the choice where the form has one."""
    prices = [str(plain_number(fields[name])) for name in _price_names(fields) if fields[name].strip()]
    choice = {"action": fields["action"] or None} if "action" in fields else {}
    return {"looked_up_prices": prices} | choice


def _typed(read: LineRead, currency: str) -> Typed:
    prices = [written(price, currency) for price in read.edit.looked_up]
    blanks = [""] * max(0, PRICES_ASKED - len(prices))
    return Typed(read.document, (*prices, *blanks), read.edit.action or "", read.edit.version)
