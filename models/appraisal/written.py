"""How are numbers written in an answer?  Money as decimal strings, blanks as null."""

import math
from functools import lru_cache
from typing import Any

from models.values.fields import Unit
from models.values.money import written
from models.values.settings import REGISTRY


def money(minor: float, currency: str) -> str | None:
    """Decimal string in major units; None for what is not known."""
    return _written(float(minor), currency) if math.isfinite(minor) else None


@lru_cache(maxsize=10_000)  # lines of one item, which follow each other, share their texts
def _written(minor: float, currency: str) -> str:
    return written(minor, currency)


def number(value: float, digits: int) -> float | None:
    """A rounded number; None for what does not happen."""
    return round(float(value), digits) if math.isfinite(value) else None


def setting_text(key: str, value: float, currency: str) -> Any:
    """A number of the settings as a document writes it: amounts as strings, the rest as numbers."""
    return money(value, currency) if REGISTRY[key].unit is Unit.MONEY else round(value, 6)
