"""How does a person write a setting, and what does the document hold?  One pair of functions: write and read back."""

import datetime as dt
import re
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from models.values.fields import Unit
from models.values.money import minor_digits
from models.values.settings import RIVALS

WORDS = frozenset({Unit.TEXT, Unit.CHOICE, Unit.DATE})
COMMAS = re.compile(r"[+-]?[1-9]\d{0,2}(,\d{3})+(\.\d*)?")  # 1,234.50
POINTS = re.compile(r"[+-]?[1-9]\d{0,2}((\.\d{3})+,\d*|(\.\d{3}){2,})")  # 1.234,50 and 1.234.567
PLAIN = re.compile(r"[+-]?(\d{1,15}(\.\d{0,15})?|\.\d{1,15})")
THOUSAND = 3  # digits after a point that may as well part thousands


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
            return [[_number(part) for part in pair] for pair in step_parts(text)]
        case Unit.RIVALS if text.strip().lower() in RIVALS:
            return text.strip().lower()
        case Unit.MOMENT:
            return _moment(text, zone)
        case _ if unit in WORDS:
            return text
        case _:
            return _number(text)


def step_parts(text: str) -> list[list[str]]:
    """`0: 10, 1,000: 25` as pairs of texts; only where no blank follows any comma do all of them part steps."""
    parted = re.split(r",\s+", text) if re.search(r",\s", text) else text.split(",")
    return [pair.split(":", 1) for pair in parted]


def _number(text: str) -> str:
    return f"{number:f}" if isinstance(number := plain_number(text), Decimal) else number


def plain_number(text: str) -> Decimal | str:
    """`$1,234.50`, `1.234,50`, `1 234,5` and `12` as a number, the text itself where it is none."""
    bare = re.sub(r"[\s$€£¥₹₩\u00a0]", "", text)
    if COMMAS.fullmatch(bare):
        bare = bare.replace(",", "")
    elif POINTS.fullmatch(bare):
        bare = bare.replace(".", "")
    bare = bare.replace(",", ".")
    return Decimal(bare) if PLAIN.fullmatch(bare) else text.strip()


def too_fine(text: str, currency: str) -> str:
    """Why an amount cannot be meant as typed: more digits after the point than its money has; blank where it can.

    `1.500` may be 1500 or 1.50: only the seller knows, and the ceiling would be a thousand times wrong.
    """
    number, digits = plain_number(text), minor_digits(currency)
    if isinstance(number, str):
        return ""
    typed = -int(number.as_tuple().exponent)
    if typed <= digits or (typed != THOUSAND and number == round(number, digits)):
        return ""
    has = f"{currency} has {digits} digits after the point" if digits else f"{currency} has whole amounts only"
    if typed != THOUSAND:
        return has
    return f"{has}: write {number.scaleb(THOUSAND):.0f} or {number:.{digits}f}"


def _moment(text: str, zone: str) -> str:
    try:
        read = dt.datetime.fromisoformat(text)
    except ValueError:
        return text
    return (read if read.tzinfo else read.replace(tzinfo=ZoneInfo(zone))).isoformat()
