"""Is a settings document usable?  Checked key by key; what comes back is plain JSON, money still in major units.

A `Given` is {"currency": "USD", "buying": {"premium": 0.15, ...}, ..., "selling": {..., "by_category": {NAME: {...}}}}.
"""

import datetime as dt
import math
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from typing import Any

from models.values.errors import Rejected
from models.values.fields import Declared, Unit
from models.values.money import minor_digits
from models.values.settings import GROUPS, REGISTRY, RIVALS

Given = dict[str, Any]
_MOST_DIGITS = 20  # after the point
_MOST = 1e10  # of anything: beyond it is a slip of the finger, and sums would lose their last cent


def read_given(document: Mapping[str, Any]) -> Given:
    """The document with every value checked and in its plain form; null takes a key back.

    Raises
    ------
    Rejected
        With one reason a key in `faults`, for unknown keys, wrong types and values out of limits.

    Examples
    --------
    >>> read_given({"buying": {"premium": 0.1, "freight": 200}})
    {'buying': {'premium': 0.1, 'freight': '200'}}
    """
    faults: dict[str, str] = {}
    given: Given = {}
    for name, content in document.items():
        if name == "currency":
            given[name] = _checked(name, REGISTRY["currency"], content, faults)
        elif name not in GROUPS:
            faults[name] = "no such setting"
        elif not isinstance(content, Mapping):
            faults[name] = "must be a group of settings"
        else:
            given[name] = _group(name, content, faults)
    _check_bad_shares(given.get("lot", {}), faults)
    if faults:
        named = "; ".join(f"{key}: {reason}" for key, reason in faults.items())
        raise Rejected(f"These settings cannot be used: {named.rstrip('.')}.", faults)
    return given


def _check_bad_shares(lot: Given, faults: dict[str, str]) -> None:
    """What does not arrive and what arrives dead are shares of the same units."""
    missing = lot.get("missing_share")
    for name in ("dead_share", "dead_untested_share"):
        dead = lot.get(name)
        if missing is not None and dead is not None and missing + dead > 1:
            faults[f"lot.{name}"] = "must not be above 1 together with missing_share"


def _group(group: str, content: Mapping[str, Any], faults: dict[str, str]) -> Given:
    kept: Given = {}
    for name, value in content.items():
        key = f"{group}.{name}"
        if key == "selling.by_category":
            kept[name] = _by_category(value, faults)
        elif key not in REGISTRY:
            faults[key] = "no such setting"
        elif value is not None:
            kept[name] = _checked(key, REGISTRY[key], value, faults)
    return kept


def _by_category(content: Any, faults: dict[str, str]) -> Given:
    if not isinstance(content, Mapping):
        faults["selling.by_category"] = "must be a group of settings a category"
        return {}
    kept: Given = {}
    for name, costs in content.items():
        inner: dict[str, str] = {}
        if isinstance(costs, Mapping) and "by_category" not in costs:
            kept[name] = _group("selling", costs, inner)
        else:
            inner["selling"] = "must be a group of settings"
        faults.update(
            {f'selling.by_category."{name}".{key.removeprefix("selling.")}': why for key, why in inner.items()}
        )
    return kept


def _checked(key: str, declared: Declared, value: Any, faults: dict[str, str]) -> Any:
    try:
        return _READERS[declared.unit](declared, value)
    except (ValueError, TypeError, InvalidOperation, Rejected) as error:
        faults[key] = str(error) if isinstance(error, (ValueError, Rejected)) and str(error) else "not usable"
        return None


def _number(declared: Declared, value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise ValueError("must be a number")
    try:
        number = float(value)
    except ValueError:
        raise ValueError("must be a number") from None
    _within(declared, number)
    return number


def _within(declared: Declared, number: float) -> None:
    if not math.isfinite(number):
        raise ValueError("must be a finite number")
    if abs(number) > _MOST:
        raise ValueError(f"must be at most {_MOST:,.0f}")
    if declared.least is not None and number < declared.least:
        raise ValueError(f"must be at least {declared.least:g}")
    if declared.most is not None and number > declared.most:
        raise ValueError(f"must be at most {declared.most:g}")


def _money(declared: Declared, value: Any) -> str:
    _within(declared, _number(declared, value))
    exact = Decimal(str(value))
    if exact.adjusted() < -_MOST_DIGITS:  # written out it would fill the memory
        raise ValueError(f"must have at most {_MOST_DIGITS} digits after the point")
    return f"{exact:f}"


def _steps(declared: Declared, value: Any) -> Any:
    if not isinstance(value, list | tuple):
        if float(_money(declared, value)) <= 0:
            raise ValueError("must be above zero")
        return _money(declared, value)
    rows = [[_money(declared, start), _steps(declared, step)] for start, step in value]
    starts = [float(start) for start, _ in rows]
    if not rows or starts[0] != 0 or starts != sorted(set(starts)) or any(isinstance(step, list) for _, step in rows):
        raise ValueError("must be [[0, step], [from, step], ...] with rising 'from'")
    return rows


def _rivals(declared: Declared, value: Any) -> Any:
    if isinstance(value, str) and value in RIVALS:
        return value
    number = _number(declared, value)
    if number > 1000:
        raise ValueError("must be none, few, many, or a number up to 1000")
    return number


def _choice(declared: Declared, value: Any) -> str:
    if value not in declared.choices:
        raise ValueError("must be one of " + ", ".join(declared.choices))
    return str(value)


def _text(declared: Declared, value: Any) -> str:
    if not isinstance(value, str) or not value.strip() or len(value) > 200:
        raise ValueError("must be a text of 1 to 200 characters")
    if declared.key == "currency":
        minor_digits(value)
    return value.strip()


def _texts(declared: Declared, value: Any) -> list[str]:
    if not isinstance(value, list | tuple) or not all(isinstance(text, str) and text.strip() for text in value):
        raise ValueError("must be a list of texts")
    told = [text.strip() for text in value]
    if declared.choices and not set(told) <= set(declared.choices):
        raise ValueError("must be some of " + ", ".join(declared.choices))
    return told


def _date(_: Declared, value: Any) -> str:
    if isinstance(value, dt.date) and not isinstance(value, dt.datetime):
        return value.isoformat()
    if not isinstance(value, str):
        raise ValueError("must be a date such as 2026-07-01")
    try:
        return dt.date.fromisoformat(value).isoformat()
    except ValueError:
        raise ValueError("must be a date such as 2026-07-01") from None


def _moment(_: Declared, value: Any) -> str:
    try:
        moment = value if isinstance(value, dt.datetime) else dt.datetime.fromisoformat(value)
    except (ValueError, TypeError):
        raise ValueError("must be a time such as 2026-07-01T18:00:00Z") from None
    if moment.tzinfo is None:
        raise ValueError("must name its offset from UTC, such as 2026-07-01T18:00:00Z")
    return moment.astimezone(dt.UTC).isoformat().replace("+00:00", "Z")


_READERS = dict.fromkeys((Unit.SHARE, Unit.COUNT, Unit.WEEKS, Unit.DAYS, Unit.HOURS, Unit.MINUTES), _number) | {
    Unit.MONEY: _money, Unit.STEPS: _steps, Unit.RIVALS: _rivals, Unit.CHOICE: _choice, Unit.TEXT: _text,
    Unit.TEXTS: _texts, Unit.DATE: _date, Unit.MOMENT: _moment,
}  # fmt: skip
