"""Keep what the seller says of one line, then value the lot again with it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal, InvalidOperation
from typing import Any

from models.services.submit_evaluation import submit_evaluation
from models.services.submitted import Submitted
from models.store.records import LineEditRecord, LotRecord, ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Rejected
from models.values.money import minor_digits, to_minor, whole_minor

ACTIONS = ("list", "bundle", "skip", "never")
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
    kept = work.line_edits.put(shop, lot_id, replace(edit, version=version))
    return LineEdited(kept, submit_evaluation(work, shop, lot_id))


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
