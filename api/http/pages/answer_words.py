"""How are the parts of an answer said on a page?  Wording and order only: no figure is made here."""

from collections.abc import Iterable, Mapping
from typing import Any, Final

from api.http.pages.setting_words import counted, setting_name, setting_value
from api.http.pages.words import RULES, about, money, named
from models.services.answer_words import (
    backlog_words,
    fixed_costs_words,
    payback_words,
    raised_words,
    steps_words,
    to_bid_words,
    two_ceilings,
)
from models.services.pace_words import minutes_words, pace_words
from models.values.settings import REGISTRY

GOALS: Final[Mapping[str, str]] = {
    "expected_return": "goals.return_on_cash",
    "confidence": "goals.confidence",
    "loss_limit": "goals.loss_limit",
    "cash_limit": "goals.cash_limit",
}  # the setting behind each rule
ON_TOP: Final[Mapping[str, str]] = {
    "buying.premium": "premium",
    "buying.tax_rate": "tax",
    "buying.payment_surcharge": "payment surcharge",
    "buying.freight": "freight",
    "buying.other_fees": "fees",
}
WHOLE_FROM: Final = 100  # major units; from here on an estimate's cents would only pretend
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


def both_ends(one: Told, currency: str) -> str:
    """The ceilings at both ends of an assumption's range."""
    low, high = one.get("ceiling_low"), one.get("ceiling_high")
    if not (low and high):
        return ""
    if low == high:
        return "pass at both ends" if not float(low) else f"{money(low, currency)} at both ends"
    return f"{or_pass(low, currency)} to {or_pass(high, currency)}"


def paid_in_all(held: Told) -> str:
    """What is paid on top of the bid: only what counts more than nothing; that no tax counts is always said."""
    parts = [word for key, word in ON_TOP.items() if float(held.get(key) or 0) > 0]
    listed = f"{', '.join(parts[:-1])} and {parts[-1]}" if len(parts) > 1 else "".join(parts)
    taxed = "" if float(held.get("buying.tax_rate") or 0) > 0 else "no tax counted"
    return "; ".join(one for one in (listed, taxed) if one)


def raised(adds: Told, currency: str) -> str:
    """What going higher does."""
    return raised_words(adds, lambda text: (about if abs(float(text)) >= WHOLE_FROM else money)(text, currency))


def fixed_costs(document: Told, currency: str) -> str:
    """Why no bid at all pays, where it is the costs alone."""
    return fixed_costs_words(document, lambda text: money(text, currency))


def steps_left(ceiling: Told, standing: str | None, currency: str) -> str:
    """What is left above the bid that stands."""
    return steps_words(ceiling, standing, lambda text: money(text, currency))


def none_allowed(by_rule: Told) -> bool:
    """No goal leaves any bid: then none of them is what stands in the way."""
    bids = [float(bid) for bid in (by_rule or {}).values() if bid is not None]
    return bool(bids) and not any(bid > 0 for bid in bids)


def kept(held: Iterable[str]) -> list[str]:
    """What a reading under other terms keeps; the weekly cash, of which nothing is kept, is said apart."""
    return [_kept(one) for one in held or () if not one.startswith(WEEKLY_CASH)]


def _kept(said: str) -> str:
    """Its key as a seller calls it."""
    key, colon, rest = said.partition(": ")
    name = setting_name(key) if key in REGISTRY else key
    return f"{name}{colon}{rest}"


def lower_first(said: str) -> str:
    """As the middle of a sentence."""
    return said[:1].lower() + said[1:]


FILTERS: Final[Mapping[str, Any]] = {
    "to_bid": to_bid, "two_ceilings": both_ceilings, "payback": payback, "goal": goal, "off_rules": off_rules,
    "moving": moving, "or_pass": or_pass, "both_ends": both_ends, "paid_in_all": paid_in_all, "raised": raised,
    "fixed_costs": fixed_costs, "steps_left": steps_left, "none_allowed": none_allowed,
    "never_clears": backlog_words, "pace": pace_words, "minutes_from": minutes_words, "kept": kept,
    "lower_first": lower_first,
}  # fmt: skip
