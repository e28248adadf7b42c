"""Which settings hold for this lot, and where does each come from?  Lot, source, shop, learned, then the default."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from models.values.fields import Declared, Unit
from models.values.given import Given
from models.values.money import minor_digits, to_minor
from models.values.settings import GROUPS, REGISTRY, Settings

Origin = Literal["yours", "learned", "assumed"]


@dataclass(frozen=True)
class Assumption:
    """One setting in force: `value`, `low` and `high` as a document writes them."""

    key: str
    value: Any
    source: Origin
    low: Any
    high: Any


@dataclass(frozen=True)
class InForce:
    """The settings of one evaluation with the origin of each key."""

    settings: Settings
    origins: Mapping[str, Origin]
    assumptions: tuple[Assumption, ...]


def in_force(given: Sequence[Given], learned: Given | None = None) -> InForce:
    """Settings from documents checked by `read_given`, the most particular first.

    Parameters
    ----------
    given : sequence of Given
        Lot, source, shop: all "yours".
    learned : Given, optional
        What the sold history taught.

    Examples
    --------
    >>> held = in_force([{"buying": {"premium": 0.1}}])
    >>> held.settings.buying.premium, held.origins["buying.premium"], held.origins["goals.confidence"]
    (0.1, 'yours', 'assumed')
    """
    layers: list[tuple[Origin, Given]] = [("yours", one) for one in given] + [("learned", learned or {})]
    found = {key: _find(key, layers) for key in REGISTRY}
    currency, _ = found["currency"] or ("USD", "assumed")
    plain = {key: hit[0] if hit else _default(REGISTRY[key], currency) for key, hit in found.items()}
    origins: dict[str, Origin] = {key: hit[1] if hit else "assumed" for key, hit in found.items()}
    groups = {
        group: table(
            **{
                key.split(".")[1]: _in_memory(REGISTRY[key], plain[key], currency)
                for key in plain
                if key.startswith(group + ".")
            }
        )
        for group, table in GROUPS.items()
    }
    settings = Settings(currency=currency, by_category=_by_category(layers, currency), **groups)
    return InForce(settings, origins, tuple(_assumption(key, plain[key], origins[key], currency) for key in REGISTRY))


def _find(key: str, layers: Sequence[tuple[Origin, Given]]) -> tuple[Any, Origin] | None:
    group, _, name = key.rpartition(".")
    for origin, layer in layers:
        content = layer.get(group, {}) if group else layer
        if name in content:
            return content[name], origin
    return None


def _default(declared: Declared, currency: str) -> Any:
    if declared.unit is Unit.MONEY and declared.default is not None and currency != "USD":
        return 0.0  # nobody's common practice in that currency is known here: said in a caution
    return declared.default


def _assumption(key: str, plain: Any, origin: Origin, currency: str) -> Assumption:
    declared = REGISTRY[key]
    ranged = origin != "yours" and not (declared.unit is Unit.MONEY and currency != "USD")

    def written(plain: Any) -> Any:
        return None if plain is None else as_written(declared, plain, currency)

    low, high = (written(declared.low), written(declared.high)) if ranged else (None, None)
    return Assumption(key, written(plain), origin, low, high)


def as_written(declared: Declared, plain: Any, currency: str) -> Any:
    """A value as documents of this currency write it: money as a decimal string with the currency's digits."""
    if declared.unit is Unit.STEPS and isinstance(plain, list):
        return [[as_written(declared, start, currency), as_written(declared, step, currency)] for start, step in plain]
    if declared.unit in (Unit.MONEY, Unit.STEPS):
        digits = minor_digits(currency)
        return f"{to_minor(plain, currency) / 10**digits:.{digits}f}"
    return list(plain) if isinstance(plain, tuple) else plain


def _in_memory(declared: Declared, plain: Any, currency: str) -> Any:
    if plain is None:
        return None
    match declared.unit:
        case Unit.MONEY:
            return to_minor(plain, currency)
        case Unit.STEPS:
            rows = plain if isinstance(plain, list) else [[0, plain]]
            return tuple((to_minor(start, currency), to_minor(step, currency)) for start, step in rows)
        case Unit.TEXTS:
            return tuple(plain)
        case Unit.DATE:
            return dt.date.fromisoformat(plain)
        case Unit.MOMENT:
            return dt.datetime.fromisoformat(plain)
        case _:
            return plain


def _by_category(layers: Sequence[tuple[Origin, Given]], currency: str) -> dict[str, dict[str, Any]]:
    merged: dict[str, dict[str, Any]] = {}
    for _, layer in reversed(layers):
        for name, costs in layer.get("selling", {}).get("by_category", {}).items():
            ready = {key: _in_memory(REGISTRY[f"selling.{key}"], value, currency) for key, value in costs.items()}
            merged.setdefault(name, {}).update(ready)
    return merged
