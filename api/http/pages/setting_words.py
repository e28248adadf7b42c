"""How is a setting shown?  Shares as percent, money with its sign, everything else with its unit."""

from collections.abc import Mapping, Sequence
from typing import Any, Final

from api.http.pages.words import amount, day, exact_percent, moment, money, number
from models.values.fields import Declared, Unit
from models.values.goods_kinds import GOODS_KINDS
from models.values.in_force import as_written
from models.values.settings import REGISTRY

UNITS: Final[Mapping[Unit, str]] = {
    Unit.SHARE: "%", Unit.WEEKS: "weeks", Unit.DAYS: "days", Unit.HOURS: "hours", Unit.MINUTES: "minutes",
}  # fmt: skip
BY_CATEGORY: Final = "selling.by_category."
QUOTE: Final = '"'
NAMES: Final[Mapping[str, str]] = {"currency": "Currency", "buying.bid_step": "Bid step"}
SAYS: Final[Mapping[str, str]] = {
    "currency": "three letters such as USD; amounts are never converted",
    "buying.bid_step": "bids are rounded down to it; one amount, or steps such as 0: 10, 500: 25",
    "never.listed_anyway": "their lines are then listed like any other; local rules decide",
    "lot.arrives_on": "empty: ten days after it is worked out, but not before you pay",
}  # fmt: skip  sentences of the registry that name keys or brackets, in a person's words


def setting_name(key: str) -> str:
    """Its sentence as a heading; the key itself where it is none of ours."""
    if key in NAMES:
        return NAMES[key]
    if key.startswith(BY_CATEGORY):
        return f"{setting_name(_declared(key).key)} ({key.removeprefix(BY_CATEGORY).rpartition('.')[0].strip(QUOTE)})"
    return REGISTRY[key].says.partition(";")[0].partition(":")[0].rstrip(".") if key in REGISTRY else key


def _declared(key: str) -> Declared:
    """A category's own cost is declared once, for all of them."""
    return REGISTRY[f"selling.{key.rpartition('.')[2]}" if key.startswith(BY_CATEGORY) else key]


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


def setting_range(key: str, currency: str) -> str:
    """What common practice is, blank where nobody can say: amounts are known in USD only."""
    declared = REGISTRY[key]
    if declared.low is None or declared.high is None or (declared.unit is Unit.MONEY and currency != "USD"):
        return ""
    low, high = (as_written(declared, end, currency) for end in (declared.low, declared.high))
    is_bare = declared.unit not in (Unit.SHARE, Unit.MONEY)  # the unit is said once, at the end
    first = number(float(low)) if is_bare else setting_value(low, key, currency)
    return f"{first} to {setting_value(high, key, currency)}"


def setting_amount(value: Any, key: str, currency: str, zone: str = "UTC") -> str:
    """The same for a column: amounts with all their digits."""
    is_money = _declared(key).unit is Unit.MONEY and value is not None
    return amount(value, currency) if is_money else setting_value(value, key, currency, zone)


def setting_value(value: Any, key: str, currency: str, zone: str = "UTC") -> str:
    """A document's value in words."""
    if value is None:
        return "not set"
    match _declared(key).unit:
        case Unit.SHARE:
            return exact_percent(float(value))
        case Unit.MONEY:
            return money(value, currency)
        case Unit.STEPS:
            return steps(value, currency)
        case Unit.TEXTS:
            return ", ".join(kind_name(one) if _declared(key).choices else one for one in value) or "none"
        case Unit.DATE:
            return day(value)
        case Unit.MOMENT:
            return moment(value, zone)
        case unit:
            return counted(value, UNITS.get(unit, ""))


def kind_name(code: str) -> str:
    """A kind of goods as a person calls it; any other text as it is."""
    return GOODS_KINDS[code].title if code in GOODS_KINDS else code


def counted(value: Any, unit: str) -> str:
    """A number with its unit, a word as it is."""
    said = number(float(value)) if isinstance(value, int | float) else str(value)
    return f"{said} {unit.removesuffix('s') if said == '1' else unit}".strip()


def steps(value: str | Sequence[Sequence[str]], currency: str) -> str:
    """One bid step, or each with where it begins."""
    if isinstance(value, str):
        return money(value, currency)
    return ", ".join(f"{money(step, currency)} from {money(start, currency)}" for start, step in value)


FILTERS: Final[Mapping[str, Any]] = {
    "setting_name": setting_name, "setting_says": setting_says, "setting_value": setting_value,
    "setting_amount": setting_amount,
}  # fmt: skip
