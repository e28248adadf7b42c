"""How is a setting shown?  Shares as percent, money with its sign, everything else with its unit."""

from collections.abc import Mapping, Sequence
from typing import Any, Final

from api.http.pages.words import day, exact_percent, moment, money, number
from models.values.fields import Unit
from models.values.settings import REGISTRY

UNITS: Final[Mapping[Unit, str]] = {
    Unit.SHARE: "%", Unit.WEEKS: "weeks", Unit.DAYS: "days", Unit.HOURS: "hours", Unit.MINUTES: "minutes",
}  # fmt: skip
NAMES: Final[Mapping[str, str]] = {"currency": "Currency", "buying.bid_step": "Bid step"}
SAYS: Final[Mapping[str, str]] = {
    "currency": "three letters such as USD; amounts are never converted",
    "buying.bid_step": "bids are rounded down to it; one amount, or steps such as 0: 10, 500: 25",
    "lot.arrives_on": "empty: ten days from today",
}  # fmt: skip  sentences of the registry that name keys or brackets, in a person's words


def setting_name(key: str) -> str:
    """Its sentence as a heading; the key itself where it is none of ours."""
    if key in NAMES:
        return NAMES[key]
    return REGISTRY[key].says.partition(";")[0].partition(":")[0].rstrip(".") if key in REGISTRY else key


def setting_says(key: str) -> str:
    """What it is a share of, and what its sentence says beyond the heading."""
    if key not in REGISTRY:
        return ""
    if key in SAYS:
        return SAYS[key]
    declared = REGISTRY[key]
    rest = declared.says[len(setting_name(key)) :].strip(" ;:.")
    said = [f"share of {declared.of_base}" if declared.of_base else "", rest]
    return "; ".join(one for one in said if one)


def setting_value(value: Any, key: str, currency: str, zone: str = "UTC") -> str:
    """A document's value in words."""
    if value is None:
        return "not set"
    match REGISTRY[key].unit:
        case Unit.SHARE:
            return exact_percent(float(value))
        case Unit.MONEY:
            return money(value, currency)
        case Unit.STEPS:
            return steps(value, currency)
        case Unit.TEXTS:
            return ", ".join(value) or "none"
        case Unit.DATE:
            return day(value)
        case Unit.MOMENT:
            return moment(value, zone)
        case unit:
            return counted(value, UNITS.get(unit, ""))


def counted(value: Any, unit: str) -> str:
    """A number with its unit, a word as it is."""
    said = number(float(value)) if isinstance(value, int | float) else str(value)
    return f"{said} {unit}".strip()


def steps(value: str | Sequence[Sequence[str]], currency: str) -> str:
    """One bid step, or each with where it begins."""
    if isinstance(value, str):
        return money(value, currency)
    return ", ".join(f"{money(step, currency)} from {money(start, currency)}" for start, step in value)


FILTERS: Final[Mapping[str, Any]] = {
    "setting_name": setting_name, "setting_says": setting_says, "setting_value": setting_value,
}  # fmt: skip
