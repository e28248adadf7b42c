"""How are amounts, shares and moments written for a tired person?  Formatting only: no figure is made here."""

import datetime as dt
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from typing import Any, Final
from zoneinfo import ZoneInfo

from models.services.backtest_words import WAYS
from models.values.money import is_currency, minor_digits

SIGNS: Final[Mapping[str, str]] = {"USD": "$", "EUR": "€", "GBP": "£", "JPY": "¥", "INR": "₹", "KRW": "₩"}
RULES: Final[Mapping[str, str]] = {
    "expected_return": "the return you ask for",
    "confidence": "how surely the cash must come back",
    "loss_limit": "your loss limit",
    "cash_limit": "your cash limit",
}
STATES: Final[Mapping[str, str]] = {
    "reading": "being read",
    "needs_columns": "needs an answer from you",
    "needs_model": "waits for your sold history",
    "evaluating": "being worked out",
    "ready": "ready",
    "failed": "failed",
    "queued": "waiting its turn",
    "running": "running",
    "done": "done",
    "cancelled": "cancelled",
}
BASES: Final[Mapping[str, str]] = {
    "own_item": "your sales of this very item",
    "brand_and_category": "your sales of this brand and category",
    "category": "your sales in this category",
    "tag_only": "its tag only",
    "prior_only": "no sale of yours",
}
ACTIONS: Final[Mapping[str, str]] = {
    "list": "list singly",
    "bundle": "sell in packs",
    "skip": "not worth a listing",
    "never": "not sold here",
}
ORIGINS: Final[Mapping[str, str]] = {"yours": "yours", "learned": "learned from your sales", "assumed": "assumed"}


def money(written: str | None, currency: str) -> str:
    """`1234.50` as $1,234.50, and $1,234 where the cents are zero; blank for nothing.  For sentences."""
    if written is None or not str(written):
        return ""
    try:
        exact = Decimal(str(written))
    except InvalidOperation:
        return str(written)
    return _signed(f"{abs(_fine(exact, currency)):,}".removesuffix(".00"), currency, below_zero=exact < 0)


def amount(written: str | None, currency: str) -> str:
    """With all its digits, for columns: every amount in one of them has as many."""
    if written is None or not str(written):
        return ""
    exact = Decimal(str(written))
    return _signed(f"{abs(_fine(exact, currency)):,}", currency, below_zero=exact < 0)


def about(written: str | None, currency: str) -> str:
    """An estimate in whole major units: its cents would only pretend."""
    if written is None or not str(written):
        return ""
    exact = Decimal(str(written))
    return _signed(f"{abs(exact):,.0f}", currency, below_zero=exact < 0)


def _fine(exact: Decimal, currency: str) -> Decimal:
    """With the currency's own digits, however it was typed; as it is where the currency is none."""
    return round(exact, minor_digits(currency)) if is_currency(currency) else exact


def _signed(digits: str, currency: str, *, below_zero: bool) -> str:
    sign = SIGNS.get(currency, f"{currency}\N{NO-BREAK SPACE}")
    return ("\N{MINUS SIGN}" if below_zero else "") + sign + digits


def percent(share: float | None) -> str:
    """A share of 1 as percent; what is not quite nothing or not quite all is not told as that."""
    if share is None:
        return ""
    if 0 < share < 0.005:
        return "under 1%"
    if 0.995 < share < 1:
        return "over 99%"
    return f"{share:.0%}".replace("-", "\N{MINUS SIGN}")


def chance(share: float | None) -> str:
    """A chance of 1 as percent; none of the cases that were tried is not never, and all of them not always."""
    if share is None:
        return ""
    return "under 1%" if share == 0 else "over 99%" if share == 1 else percent(share)


def exact_percent(share: float | None) -> str:
    """A share as percent with the digits it has: .125 as 12.5%."""
    if share is None:
        return ""
    digits = f"{Decimal(str(share)):.6%}".rstrip("%").rstrip("0").rstrip(".")
    return digits.replace("-", "\N{MINUS SIGN}") + "%"


def number(value: float | None) -> str:
    """At most one decimal, thousands apart."""
    if value is None:
        return ""
    return f"{value:,.1f}".removesuffix(".0") if abs(value) < 100 else f"{value:,.0f}"


def count(value: float, one: str, many: str) -> str:
    """`1 line`, `2 lines`."""
    written = number(value)
    return f"{written} {one if written == '1' else many}"


def day(value: str | dt.date | None) -> str:
    """2026-07-01 as Wed 1 Jul 2026."""
    if not value:
        return ""
    date = dt.date.fromisoformat(value[:10]) if isinstance(value, str) else value
    return f"{date:%a} {date.day} {date:%b %Y}"


def moment(value: str | dt.datetime | None, zone: str = "UTC") -> str:
    """A time in the shop's own zone."""
    if not value:
        return ""
    read = dt.datetime.fromisoformat(value) if isinstance(value, str) else value
    local = read.astimezone(ZoneInfo(zone)) if read.tzinfo else read
    return f"{day(local.date())}, {local:%H:%M %Z}".rstrip()


def by_key(assumptions: list[dict[str, Any]]) -> dict[str, Any]:
    """Values in force under their keys, to be named in a sentence."""
    return {one["key"]: one.get("value") for one in assumptions or []}


def named(words: Mapping[str, str], code: str) -> str:
    """The word for a code, the code itself where there is none."""
    return words.get(code, str(code).replace("_", " "))


FILTERS: Final[Mapping[str, Any]] = {
    "money": money, "amount": amount, "about": about, "percent": percent, "chance": chance,
    "exact_percent": exact_percent,
    "number": number, "day": day, "moment": moment, "by_key": by_key,
    "rule": lambda code: named(RULES, code), "state": lambda code: named(STATES, code),
    "basis": lambda code: named(BASES, code), "action": lambda code: named(ACTIONS, code),
    "way": lambda code: named(WAYS, code), "origin": lambda code: named(ORIGINS, code),
}  # fmt: skip
GLOBALS: Final[Mapping[str, Any]] = {"count": count}
