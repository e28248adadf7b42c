"""Keep what the seller says of one line, then value the lot again with it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal, InvalidOperation
from typing import Any

from models.services.read_line import read_line
from models.services.read_lines import all_lines
from models.services.submit_evaluation import submit_evaluation
from models.services.submitted import Submitted
from models.store.records import LineEditRecord, LotRecord, ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Rejected
from models.values.money import minor_digits, to_minor, whole_minor

ACTIONS = ("list", "bundle", "skip", "never")
PACKS, FEWEST_IN_PACK = "bundle", 2
MOST_PRICES = 20
HIGHEST_PRICE = Decimal(1_000_000_000)  # major units
_PRICES, _ACTION = "looked_up_prices", "action"


@dataclass(frozen=True)
class LineEdited:
    """The line's edit as it stands now, and the evaluation that was queued for it."""

    edit: LineEditRecord
    submitted: Submitted[LotRecord]


def read_line_edit(work: UnitOfWork, shop: ShopId, lot_id: str, no: int) -> LineEditRecord:
    """What the seller said of a line so far; NotFound if there is no such line."""
    return work.line_edits.require(shop, work.lots.require(shop, lot_id).id, no)


def edit_line(
    work: UnitOfWork, shop: ShopId, lot_id: str, no: int, changes: Mapping[str, Any], version: int
) -> LineEdited:
    """Change what `changes` names, keep the rest; StaleVersion unless `version` stands, Rejected for unusable values.

    `looked_up_prices`: amounts in major units, none to forget them.  `action`: one of `ACTIONS`, None for ours.
    """
    edit = work.line_edits.require(shop, work.lots.require(shop, lot_id).id, no)
    if not changes:
        raise Rejected("Say looked_up_prices, action or both.")
    if _PRICES in changes:
        currency = work.shops.require(shop).currency
        edit = replace(edit, looked_up=checked_prices(changes[_PRICES] or (), currency))
    if _ACTION in changes:
        edit = replace(edit, action=checked_action(changes[_ACTION]))
        if edit.action == PACKS and _units_to_pack(work, shop, lot_id, no) < FEWEST_IN_PACK:
            raise Rejected(
                "A pack takes at least 2 units of the same item, and this lot has 1: choose another way for it.",
                {_ACTION: "there is only 1 unit of it"},
            )
    kept = work.line_edits.put(shop, lot_id, replace(edit, version=version))
    return LineEdited(kept, submit_evaluation(work, shop, lot_id))


def _units_to_pack(work: UnitOfWork, shop: ShopId, lot_id: str, no: int) -> int:
    """Units of the line, and where that is one and the lot was valued, of all its lines of the same item."""
    line = read_line(work, shop, lot_id, no).document
    if line["quantity"] >= FEWEST_IN_PACK or "item" not in line:
        return int(line["quantity"])
    return sum(int(one["quantity"]) for one in all_lines(work, shop, lot_id) if one["item"] == line["item"])


def checked_prices(prices: Sequence[Any], currency: str) -> tuple[float, ...]:
    """Prices of one unit in whole minor units; Rejected unless each is an amount above zero."""
    if len(prices) > MOST_PRICES:
        raise Rejected(f"At most {MOST_PRICES} looked-up prices a line.", {_PRICES: "too many"})
    return tuple(_price(one, currency) for one in prices)


def checked_action(action: str | None) -> str | None:
    """What to do with a line, None to leave it to us; Rejected if it is none of these."""
    if action is not None and action not in ACTIONS:
        raise Rejected(f"What to do with a line is one of {', '.join(ACTIONS)}, or null.", {_ACTION: "not one of them"})
    return action


def _price(given: Any, currency: str) -> float:
    smallest = Decimal(1).scaleb(-minor_digits(currency))
    try:
        exact = Decimal(str(given))
    except InvalidOperation:
        exact = Decimal("NaN")
    if not (exact.is_finite() and smallest <= exact <= HIGHEST_PRICE):
        reason = f"each must be an amount from {smallest} up"
        raise Rejected("A looked-up price is not an amount of money above zero.", {_PRICES: reason})
    return float(whole_minor(to_minor(exact, currency)))
