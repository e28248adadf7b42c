"""How is one change since the last evaluation said?  Always the same way: what, how it is now, how it was before."""

from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any, Final

from api.http.pages.columns import column_name
from api.http.pages.setting_words import setting_name, setting_value
from api.http.pages.words import ACTIONS, day, money, named

Value = Callable[[Any, str], str]

NAMES: Final[Mapping[str, str]] = {"model version": "version of what was learned", "day": "worked out as of"}
VALUES: Final[Mapping[str, Value]] = {
    "bid ceiling": lambda value, currency: "pass" if not float(value) else money(value, currency),
    "day": lambda value, _: day(value),
    "looked-up prices": lambda value, currency: ", ".join(money(one, currency) for one in value) or "none",
    "what to do with it": lambda value, _: named(ACTIONS, value) if value else "what pays best",
    "column of the manifest": lambda value, _: (
        f"\N{LEFT DOUBLE QUOTATION MARK}{value}\N{RIGHT DOUBLE QUOTATION MARK}" if value else "none"
    ),
}


def change_words(change: Mapping[str, Any], currency: str, zone: str = "UTC") -> str:
    """`Freight a pallet: $120 (before: $250), which alone raises the ceiling by $130`."""
    now, before = (_value(change, end, currency, zone) for end in ("to", "from"))
    return f"{_name(change)}: {now} (before: {before}){_moved(change, currency)}"


def _moved(change: Mapping[str, Any], currency: str) -> str:
    move = Decimal(change.get("moves") or 0)
    if not move:
        return ""
    return f", which alone {'raises' if move > 0 else 'lowers'} the ceiling by {money(str(abs(move)), currency)}"


def _name(change: Mapping[str, Any]) -> str:
    if "key" in change:
        return setting_name(change["key"])
    if "column" in change:
        return f"column {column_name(change['column'])}"
    what = NAMES.get(change["what"], change["what"])
    if "line" in change:
        return f"line {change['line']}, {what}"
    return f"row {change['row']} of the manifest, {what}" if "row" in change else what


def _value(change: Mapping[str, Any], end: str, currency: str, zone: str) -> str:
    if "key" in change:
        return setting_value(change[end], change["key"], currency, zone)
    spelled = VALUES.get(change["what"])
    return str(change[end]) if spelled is None else spelled(change[end], currency)
