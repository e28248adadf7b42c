"""How is one setting declared?  Unit, default, range and one sentence, beside the dataclass field itself."""

import dataclasses
from dataclasses import dataclass
from enum import StrEnum
from typing import Any


class Unit(StrEnum):
    """What a setting's number means, and so how it is read and written."""

    SHARE = "share"
    MONEY = "money"  # documents: major units; in memory: minor units
    COUNT = "count"
    WEEKS = "weeks"
    DAYS = "days"
    HOURS = "hours"
    MINUTES = "minutes"
    CHOICE = "choice"
    TEXT = "text"
    TEXTS = "texts"
    DATE = "date"
    MOMENT = "moment"
    STEPS = "steps"  # money, or [[from, step], ...]
    RIVALS = "rivals"  # none | few | many, or a number


@dataclass(frozen=True)
class Declared:
    """One setting: `default`, `low` and `high` as a document writes them (money in major units, USD)."""

    key: str
    unit: Unit
    default: Any
    low: float | None
    high: float | None
    says: str
    of_base: str  # what a share is a share of; "" where the unit says it all
    choices: tuple[str, ...]
    optional: bool  # None means off or unknown
    least: float | None
    most: float | None


def setting(
    default: Any,
    unit: Unit,
    says: str,
    *,
    between: tuple[float, float] | None = None,
    of_base: str = "",
    choices: tuple[str, ...] = (),
    optional: bool = False,
    limits: tuple[float | None, float | None] = (0.0, None),
) -> Any:
    """A dataclass field; `between` is the range of common practice, `limits` what is accepted at all."""
    low, high = between or (None, None)
    limits = (limits[0], 1.0) if unit is Unit.SHARE and limits[1] is None else limits
    declared = Declared("", unit, default, low, high, says, of_base, choices, optional, *limits)
    in_memory = default * 100.0 if unit is Unit.MONEY and default is not None else default  # USD has two digits
    if unit is Unit.STEPS:
        in_memory = ((0.0, default * 100.0),)
    return dataclasses.field(default=in_memory, metadata={"declared": declared})


def declared_fields(group: str, table: type) -> tuple[Declared, ...]:
    """Every setting of one group, with its full key."""
    return tuple(
        dataclasses.replace(field.metadata["declared"], key=f"{group}.{field.name}")
        for field in dataclasses.fields(table)
        if "declared" in field.metadata
    )
