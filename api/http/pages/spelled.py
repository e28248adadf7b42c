"""How does a person write a setting, and what does the document hold?  One pair of functions: write and read back."""

import datetime as dt
import re
from decimal import Decimal, InvalidOperation
from typing import Any
from zoneinfo import ZoneInfo

from models.values.fields import Unit

WORDS = frozenset({Unit.TEXT, Unit.CHOICE, Unit.DATE})
THOUSANDS = re.compile(r"\d{1,3}(,\d{3})+(\.\d+)?")


def spelled(unit: Unit, value: Any, zone: str) -> str:
    """A document's value as its form field shows it."""
    match unit:
        case Unit.SHARE:
            return f"{Decimal(str(value)).scaleb(2).normalize():f}"
        case Unit.TEXTS:
            return "\n".join(value)
        case Unit.STEPS if not isinstance(value, str):
            return ", ".join(f"{start}: {step}" for start, step in value)
        case Unit.MOMENT:
            return dt.datetime.fromisoformat(value).astimezone(ZoneInfo(zone)).strftime("%Y-%m-%dT%H:%M")
        case _:
            return f"{value:g}" if isinstance(value, float) else str(value)


def read_back(unit: Unit, text: str, zone: str) -> Any:
    """What was typed as a document holds it; what cannot be read stays text, and is refused with its reason later."""
    match unit:
        case Unit.SHARE:
            number = plain_number(text.rstrip("% "))
            return number if isinstance(number, str) else float(number.scaleb(-2))
        case Unit.TEXTS:
            return [line.strip() for line in text.splitlines() if line.strip()]
        case Unit.STEPS if ":" in text:
            return [[str(plain_number(part)) for part in pair.split(":", 1)] for pair in text.split(",")]
        case Unit.MOMENT:
            return _moment(text, zone)
        case _ if unit in WORDS:
            return text
        case _:
            number = plain_number(text)
            return number if isinstance(number, str) else str(number)


def plain_number(text: str) -> Decimal | str:
    """`$1,234.50`, `1 234,5` and `12` as a number, the text itself where it is none."""
    bare = re.sub(r"[\s$€£¥\u00a0]", "", text)
    bare = bare.replace(",", "") if THOUSANDS.fullmatch(bare) else bare.replace(",", ".")
    try:
        return Decimal(bare)
    except InvalidOperation:
        return text.strip()


def _moment(text: str, zone: str) -> str:
    try:
        read = dt.datetime.fromisoformat(text)
    except ValueError:
        return text
    return (read if read.tzinfo else read.replace(tzinfo=ZoneInfo(zone))).isoformat()
