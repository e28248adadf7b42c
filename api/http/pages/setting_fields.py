"""Which form field does each setting get?  Made from the registry, so a new setting appears by itself."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from api.http.pages.setting_words import UNITS, kind_name, setting_name, setting_range, setting_says, setting_value
from api.http.pages.spelled import read_back, spelled
from api.http.pages.words import ORIGINS
from models.values.fields import Declared, Unit
from models.values.given import Given
from models.values.in_force import Assumption
from models.values.settings import GROUPS, REGISTRY

GROUP_NAMES: Final[Mapping[str, str]] = {
    "buying": "Buying terms", "lot": "Not as listed", "selling": "Selling costs", "goals": "Your goals",
    "effort": "Your minutes", "backlog": "Your backlog", "never": "Never sold here",
}  # fmt: skip
OF_ONE_LOT: Final = ("lot.source", "lot.closes_at", "lot.current_bid", "lot.arrives_on", "lot.pallets")
_FIRST: Final = ("buying.premium", "buying.freight", "buying.tax_rate")
OF_A_BUY: Final = (*_FIRST, *(key for key in REGISTRY if key.startswith("buying.") and key not in _FIRST))
KINDS: Final = {Unit.CHOICE: "choice", Unit.TEXTS: "lines", Unit.DATE: "date", Unit.MOMENT: "datetime-local"}
IN_WORDS: Final = frozenset(KINDS) | {Unit.TEXT, Unit.STEPS, Unit.RIVALS}


TICK: Final = ":"  # between a key and one of its choices, in the name of a box to tick


@dataclass(frozen=True)
class Field:
    """One setting as a form shows it; `otherwise` is what holds while it is left empty, `doubt` what is asked back."""

    name: str
    label: str
    hint: str
    kind: str
    value: str
    otherwise: str
    unit: str
    choices: tuple[str, ...]
    decimal: bool
    boxes: tuple[tuple[str, str], ...] = ()  # choice and how a person says it, where several can be ticked
    doubt: str = ""
    insist: str = ""  # how to have it all the same
    is_meant: bool = False  # the seller insisted already


def fields_of(
    keys: Iterable[str], given: Given, held: Mapping[str, Assumption], currency: str, zone: str
) -> list[Field]:
    """Form fields in the order of `keys`; `given` fills them, `held` tells what holds otherwise."""
    return [_field(key, given, held[key], currency, zone) for key in keys]


def _field(key: str, given: Given, held: Assumption, currency: str, zone: str) -> Field:
    declared = REGISTRY[key]
    group, _, name = key.rpartition(".")
    value = (given.get(group, {}) if group else given).get(name)
    told = f" Times in {zone}." if declared.unit is Unit.MOMENT else ""  # beside the field it would leave no room
    return Field(
        name=key,
        label=setting_name(key),
        hint=_hint(key, held, currency, is_filled=value is not None) + told,
        kind="boxes" if _ticked(declared) else KINDS.get(declared.unit, "text"),
        value="" if value is None else spelled(declared.unit, value, zone),
        otherwise=_otherwise(held, zone),
        unit=currency if declared.unit is Unit.MONEY else UNITS.get(declared.unit, ""),
        choices=declared.choices,
        decimal=declared.unit not in IN_WORDS,
        boxes=tuple((choice, kind_name(choice)) for choice in declared.choices) if _ticked(declared) else (),
    )


def _ticked(declared: Declared) -> bool:
    """Several of a few choices."""
    return declared.unit is Unit.TEXTS and bool(declared.choices)


def typed_text(fields: Mapping[str, str], key: str) -> str:
    """What a form says of a setting: a text, or the choices that were ticked, one a line."""
    ticked = [choice for choice in REGISTRY[key].choices if key + TICK + choice in fields]
    return "\n".join(ticked) if ticked else fields.get(key, "").strip()


def _hint(key: str, held: Assumption, currency: str, *, is_filled: bool) -> str:
    usual = setting_range(key, currency)  # also where the value is yours: a slip shows against it
    said = "; ".join(one for one in (setting_says(key), f"usually {usual}" if usual else "") if one)
    sentences = [said[:1].upper() + said[1:] + "."] if said else []
    if not is_filled and held.value not in (None, []):
        whose = "" if key == "currency" else f", {ORIGINS[held.source]}"  # a new shop's was given by nobody
        sentences.append(f"If empty: {setting_value(held.value, key, currency)}{whose}.")
    return " ".join(sentences)


def _otherwise(held: Assumption, zone: str) -> str:
    return "" if held.value in (None, []) else spelled(REGISTRY[held.key].unit, held.value, zone)


def shop_groups() -> dict[str, list[str]]:
    """Keys of the settings page by heading: everything that is not about one lot alone."""
    return {
        GROUP_NAMES[group]: [key for key in REGISTRY if key.startswith(group + ".") and key not in OF_ONE_LOT]
        for group in GROUPS
    }


def document_of(fields: Mapping[str, str], keys: Iterable[str], zone: str) -> Given:
    """A settings document of every field that was filled in; values are checked where settings are read."""
    document: dict[str, Any] = {}
    for key in keys:
        text = typed_text(fields, key)
        if not text:
            continue
        text = text.upper() if key == "currency" else text
        group, _, name = key.rpartition(".")
        (document.setdefault(group, {}) if group else document)[name] = read_back(REGISTRY[key].unit, text, zone)
    return document


def with_unseen(document: Given, kept: Given, shown: Iterable[str]) -> Given:
    """The document, and of what was kept before everything that the form did not show."""
    seen = frozenset(shown)
    whole = dict(document)
    for group, content in kept.items():
        if isinstance(content, dict):
            unseen = {name: value for name, value in content.items() if f"{group}.{name}" not in seen}
            whole[group] = unseen | document.get(group, {})
        elif group not in seen:
            whole[group] = content
    return {group: content for group, content in whole.items() if content != {}}
