"""Which fields of a form must be asked about again?  What cannot be kept, and percents that look like fractions."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Final

from api.http.pages.setting_fields import Field, document_of, typed_text
from api.http.pages.spelled import plain_number, step_parts, too_fine
from api.http.pages.words import exact_percent
from models.values.errors import Rejected
from models.values.fields import Declared, Unit
from models.values.given import read_given
from models.values.settings import REGISTRY

INSIST: Final = "insist:"  # before a key: yes, this very text is meant
LIMIT: Final = re.compile(r"must be at (least|most) (-?[\d.]+(?:e-?\d+)?)$")
PLAINLY: Final[Mapping[str, str]] = {
    "must be [[0, step], [from, step], ...] with rising 'from'": "write one amount, or steps such as 0: 10, 500: 25",
}
FAR_BELOW: Final = 3  # times under the low end of common practice
NUMBERS: Final = frozenset({Unit.SHARE, Unit.MONEY, Unit.COUNT, Unit.WEEKS, Unit.DAYS, Unit.HOURS, Unit.MINUTES})
WHOLE: Final = frozenset({"backlog.waiting_units"})  # counted by hand, not expected


@dataclass(frozen=True)
class Doubt:
    """`reason` is a sentence; `insist` what to say to have it all the same, blank where that is no choice."""

    reason: str
    insist: str = ""


def doubts_of(fields: Mapping[str, str], keys: Iterable[str], currency: str, zone: str) -> dict[str, Doubt]:
    """Every field that cannot be kept as it was typed, by key."""
    keys = tuple(keys)
    doubts = {key: doubt for key in keys if (doubt := _slip(key, fields) or _misread(key, fields, currency))}
    try:
        read_given(document_of(fields, keys, zone))
    except Rejected as error:
        doubts |= {key: Doubt(reason_in_words(key, reason)) for key, reason in error.faults.items()}
    return doubts


def as_typed(fields: Sequence[Field], typed: Mapping[str, str], doubts: Mapping[str, Doubt]) -> list[Field]:
    """The same form as it was sent, with what is asked back."""
    return [_as_typed(one, typed, doubts.get(one.name, Doubt(""))) for one in fields]


def _as_typed(field: Field, typed: Mapping[str, str], doubt: Doubt) -> Field:
    text = typed_text(typed, field.name) if typed and field.boxes else typed.get(field.name, field.value)
    is_meant = bool(text) and typed.get(INSIST + field.name) == text.strip()
    return replace(field, value=text, doubt=doubt.reason, insist=doubt.insist, is_meant=is_meant)


def reason_in_words(key: str, reason: str) -> str:
    """A reason as this field's unit speaks."""
    found = LIMIT.fullmatch(reason)
    if found and key in REGISTRY and REGISTRY[key].unit is Unit.SHARE:
        return f"must be at {found[1]} {exact_percent(float(found[2]))}"
    return PLAINLY.get(reason, reason).rstrip(".")


def _slip(key: str, fields: Mapping[str, str]) -> Doubt | None:
    declared, text = REGISTRY[key], fields.get(key, "").strip()
    number = plain_number(text)
    if declared.unit is not Unit.SHARE or isinstance(number, str) or not 0 < number < 1:
        return None  # a text that ends in % says what it means
    if fields.get(INSIST + key) == text or not _looks_like_a_fraction(declared, float(number)):
        return None
    typed, meant = f"{number.normalize():f}%", f"{(number * Decimal(100)).normalize():f}%"
    return Doubt(f"{typed}: did you mean {meant}? Then type {meant}", f"No, {typed} is right")


def _misread(key: str, fields: Mapping[str, str], currency: str) -> Doubt | None:
    """What a program would read in another way than a person means it."""
    unit, text = REGISTRY[key].unit, fields.get(key, "").strip()
    if not text:
        return None
    number = plain_number(text.rstrip("% ") if unit is Unit.SHARE else text)
    if unit in NUMBERS and isinstance(number, str):
        return Doubt("must be a number")
    if key in WHOLE and not isinstance(number, str) and number % 1:
        return Doubt("must be a whole number")
    parts = [text] if unit is Unit.MONEY or (unit is Unit.STEPS and ":" not in text) else []
    if unit is Unit.STEPS and ":" in text:
        parts = [part for pair in step_parts(text) for part in pair]
    return next((Doubt(reason) for part in parts if (reason := too_fine(part, currency))), None)


def _looks_like_a_fraction(declared: Declared, number: float) -> bool:
    """Far under what is usual read as percent; where usual begins at nothing, usual if read as a fraction."""
    usual = declared.low if declared.low is not None else declared.default
    if usual is not None and usual > 0:
        return bool(number / 100 < usual / FAR_BELOW)
    return declared.high is not None and number <= declared.high
