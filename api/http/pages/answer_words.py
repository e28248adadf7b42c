"""How are the parts of an answer said on a page?  Wording and order only: no figure is made here."""

from collections.abc import Iterable, Mapping
from typing import Any, Final

from api.http.pages.setting_words import counted, setting_name, setting_value
from api.http.pages.words import RULES, money, named
from models.services.answer_words import payback_words, to_bid_words, two_ceilings
from models.values.settings import REGISTRY

GOALS: Final[Mapping[str, str]] = {
    "expected_return": "goals.return_on_cash",
    "confidence": "goals.confidence",
    "loss_limit": "goals.loss_limit",
    "cash_limit": "goals.cash_limit",
}  # the setting behind each rule
WEEKLY_CASH: Final = "cash_curve and payback_weeks"
Told = Mapping[str, Any]


def to_bid(change: Told, currency: str, zone: str = "UTC") -> str:
    """One change that would turn a pass into a bid."""
    return to_bid_words(change, lambda value, key: setting_value(value, key, currency, zone))


def both_ceilings(assumptions: Iterable[Told], currency: str) -> list[str]:
    """What an unknown freight or tax makes of the ceiling, each in one sentence."""

    def written(value: Any, key: str) -> str:
        return setting_value(value, key, currency)

    said = [two_ceilings(one, written, lambda text: money(text, currency)) for one in assumptions or ()]
    return [one for one in said if one]


def payback(weeks: Told, horizon: float) -> str:
    """When the cash is back."""
    return payback_words(weeks, counted(horizon, "weeks"))


def goal(rule: str, held: Told, currency: str) -> str:
    """A rule with what the seller asks of it, as a heading."""
    key, said = GOALS.get(rule, ""), named(RULES, rule)
    value = held.get(key)
    whole = said if value is None else f"{said}, {setting_value(value, key, currency)}"
    return whole[:1].upper() + whole[1:]


def off_rules(by_rule: Told) -> list[str]:
    """Goals that are not set."""
    return [named(RULES, rule) for rule, bid in by_rule.items() if bid is None]


def moving(assumptions: Iterable[Told]) -> list[Told]:
    """Those whose range moves the ceiling, in their order."""
    return [one for one in assumptions if one.get("ceiling_low") != one.get("ceiling_high")]


def or_pass(written: str, currency: str) -> str:
    """A ceiling; nothing left to bid is a pass."""
    return money(written, currency) if float(written) else "pass"


def kept(said: str) -> str:
    """What a reading under other terms keeps, its key as a seller calls it."""
    key, colon, rest = said.partition(": ")
    name = "Cash week by week" if key == WEEKLY_CASH else setting_name(key) if key in REGISTRY else key
    return f"{name}{colon}{rest}"


def lower_first(said: str) -> str:
    """As the middle of a sentence."""
    return said[:1].lower() + said[1:]


FILTERS: Final[Mapping[str, Any]] = {
    "to_bid": to_bid, "two_ceilings": both_ceilings, "payback": payback, "goal": goal, "off_rules": off_rules,
    "moving": moving, "or_pass": or_pass, "kept": kept, "lower_first": lower_first,
}  # fmt: skip
