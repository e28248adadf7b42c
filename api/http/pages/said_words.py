"""What did the seller say of a file?  Each answer in words, to be kept or asked again."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from models.values.questions import (
    DATES_ARE,
    DECIMALS_ARE,
    GRADE,
    LOT_IS,
    QUANTITY_IS,
    SHEET_IS,
    SHIPPING_IS,
    SOLD_PRICE_IS,
    SOURCED_IS,
    TAG_IS,
    is_answer,
)

_LABELS: Final[Mapping[str, str]] = {
    DATES_ARE: "Dates have first", QUANTITY_IS: "A quantity counts", TAG_IS: "A price tag is for",
    LOT_IS: "The lot in the file", SHEET_IS: "The sheet with the lines", DECIMALS_ARE: "Cents follow",
    SHIPPING_IS: "Postage in the file was",
}  # fmt: skip
_OWN_FIELDS: Final = (SOLD_PRICE_IS, SOURCED_IS)
_VALUES: Final[Mapping[tuple[str, str], str]] = {
    (DATES_ARE, "day_first"): "the day", (DATES_ARE, "month_first"): "the month",
    (QUANTITY_IS, "units"): "single units", (TAG_IS, "unit"): "one unit", (TAG_IS, "line"): "the whole row",
    (DECIMALS_ARE, "point"): "a point", (DECIMALS_ARE, "comma"): "a comma",
    (SHIPPING_IS, "charged"): "paid by the buyer", (SHIPPING_IS, "paid"): "paid by you",
    (SHIPPING_IS, "neither"): "neither",
}  # fmt: skip


@dataclass(frozen=True)
class Said:
    """One answer; `words` is its value as a seller says it."""

    key: str
    label: str
    value: str
    words: str


def said_before(mapping: Mapping[str, str]) -> tuple[Said, ...]:
    """The answers of a mapping that are about no column; some have a field of their own."""
    answers = {key: value for key, value in mapping.items() if is_answer(key) and key not in _OWN_FIELDS}
    return tuple(Said(key, _label(key), value, _VALUES.get((key, value), value)) for key, value in answers.items())


def _label(key: str) -> str:
    return f"Condition '{key.removeprefix(GRADE)}' means" if key.startswith(GRADE) else _LABELS.get(key, key)
