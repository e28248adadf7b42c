"""Which settings hold for this lot, and where does each come from?  Lot, source, shop, learned, then the default."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

from models.values.categories import plain_path
from models.values.fields import Declared, Unit
from models.values.given import Given
from models.values.money import minor_digits, to_minor
from models.values.settings import GROUPS, REGISTRY, Settings

Origin = Literal["yours", "learned", "assumed"]
Hit = tuple[Any, Origin]  # a value as documents write it, and where it came from


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
        What the sold history taught; its costs by category give way to a seller's general ones.

    Examples
    --------
    >>> held = in_force([{"buying": {"premium": 0.1}}])
    >>> held.settings.buying.premium, held.origins["buying.premium"], held.origins["goals.confidence"]
    (0.1, 'yours', 'assumed')
    """
    layers: list[tuple[Origin, Given]] = [("yours", one) for one in given] + [("learned", learned or {})]
    found = {key: _find(key, layers) for key in REGISTRY}
    currency, _ = found["currency"] or ("USD", "assumed")
    held = {key: hit or (_default(REGISTRY[key], currency), "assumed") for key, hit in found.items()}
    costs = _by_category(layers)
    assumptions = [_assumption(REGISTRY[key], hit, currency) for key, hit in held.items()]
    for name, one in costs.items():
        named = [_assumption(REGISTRY[f"selling.{key}"], hit, currency) for key, hit in one.items()]
        assumptions += [replace(own, key=_key_of(name, own.key.removeprefix("selling."))) for own in named]
    settings = _settings(held, costs, currency)
    return InForce(settings, {key: origin for key, (_, origin) in held.items()}, tuple(assumptions))


def without_learned(settings: Settings, key: str, held: InForce) -> Settings:
    """The settings once a seller gives one general key: what was learned of categories gives way to it.

    Parameters
    ----------
    settings : Settings
        With the key set.
    key : str
        The key given.
    held : InForce
        Where every value came from before.

    Examples
    --------
    >>> held = in_force([], {"selling": {"packing": "1.20", "by_category": {"Toys": {"packing": "2.00"}}}})
    >>> without_learned(held.settings, "selling.packing", held).by_category
    {}
    """
    cost = key.removeprefix("selling.")
    if cost == key or '"' in cost:
        return settings
    learned = {one.key for one in held.assumptions if one.source == "learned"}
    kept = {
        name: {own: value for own, value in costs.items() if own != cost or _key_of(name, cost) not in learned}
        for name, costs in settings.by_category.items()
    }
    return replace(settings, by_category={name: costs for name, costs in kept.items() if costs})


def _key_of(category: str, cost: str) -> str:
    return f'selling.by_category."{category}".{cost}'


def _settings(held: Mapping[str, Hit], costs: Mapping[str, Mapping[str, Hit]], currency: str) -> Settings:
    def ready(key: str, hit: Hit) -> Any:
        return in_memory(REGISTRY[key], hit[0], currency)

    groups = {
        group: table(**{key.split(".")[1]: ready(key, hit) for key, hit in held.items() if key.startswith(group + ".")})
        for group, table in GROUPS.items()
    }
    by_category = {name: {key: ready(f"selling.{key}", hit) for key, hit in one.items()} for name, one in costs.items()}
    return Settings(currency=currency, by_category=by_category, **groups)


def _find(key: str, layers: Sequence[tuple[Origin, Given]]) -> Hit | None:
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


def _assumption(declared: Declared, hit: Hit, currency: str) -> Assumption:
    plain, origin = hit
    ranged = origin != "yours" and not (declared.unit is Unit.MONEY and currency != "USD")

    def written(plain: Any) -> Any:
        return None if plain is None else as_written(declared, plain, currency)

    low, high = (written(declared.low), written(declared.high)) if ranged else (None, None)
    return Assumption(declared.key, written(plain), origin, low, high)


def as_written(declared: Declared, plain: Any, currency: str) -> Any:
    """A value as documents of this currency write it: money as a decimal string with the currency's digits."""
    if declared.unit is Unit.STEPS and isinstance(plain, list):
        return [[as_written(declared, start, currency), as_written(declared, step, currency)] for start, step in plain]
    if declared.unit in (Unit.MONEY, Unit.STEPS):
        digits = minor_digits(currency)
        return f"{to_minor(plain, currency) / 10**digits:.{digits}f}"
    return list(plain) if isinstance(plain, tuple) else plain


def in_memory(declared: Declared, plain: Any, currency: str) -> Any:
    """A document's value as the code holds it: money in minor units, days and moments as such."""
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


def _by_category(layers: Sequence[tuple[Origin, Given]]) -> dict[str, dict[str, Hit]]:
    """Every category's own costs as documents write them, the most particular layer last and so in force.

    What was learned of a category gives way to the seller's own word for the whole shop, and holds in a part of that
    category for whatever the seller does not say of the part.  A category is the same however it is spelled: the name
    kept is that of the least particular layer, so that a lot's own word renames nothing.
    """
    own = {key for origin, layer in layers if origin == "yours" for key in layer.get("selling", {})}
    merged: dict[str, dict[str, Hit]] = {}
    spelled: dict[str, str] = {}
    for origin, layer in reversed(layers):
        for name, costs in layer.get("selling", {}).get("by_category", {}).items():
            held: dict[str, Hit] = {key: (value, origin) for key, value in costs.items()}
            if origin == "learned":
                held = {key: hit for key, hit in held.items() if key not in own}
            if held:
                merged.setdefault(spelled.setdefault(plain_path(name), name), {}).update(held)
    return {name: _learned_of_top(merged, name) | costs for name, costs in merged.items()}


def _learned_of_top(merged: Mapping[str, Mapping[str, Hit]], name: str) -> dict[str, Hit]:
    top = name.split(">")[0].strip()
    return {} if top == name else {key: hit for key, hit in merged.get(top, {}).items() if hit[1] == "learned"}
