"""What if one setting were another?  Settings in force with one key changed, and the keys in which two of them differ.

Keys are those of the settings document, `selling.by_category."NAME".KEY` for a category's own costs.
"""

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from models.values.in_force import in_memory
from models.values.settings import REGISTRY, Settings

_OF_CATEGORY = re.compile(r'selling\.by_category\."(?P<name>.*)"\.(?P<cost>\w+)')


def with_setting(settings: Settings, key: str, plain: Any) -> Settings:
    """The settings with one key changed; `plain` as a document writes it.

    Parameters
    ----------
    settings : Settings
        In force.
    key : str
        A key of the registry, or of a category's own costs.
    plain : Any
        A value that `read_given` accepts.

    Returns
    -------
    Settings
        Every other key as it was.

    Raises
    ------
    KeyError
        If there is no such key.

    Examples
    --------
    >>> with_setting(Settings(), "buying.freight", "120.50").buying.freight
    12050.0
    >>> with_setting(Settings(), 'selling.by_category."Toys".fee_share', 0.2).selling_for("Toys").fee_share
    0.2
    """
    own = _OF_CATEGORY.fullmatch(key)
    if own is None:
        value = in_memory(REGISTRY[key], plain, settings.currency)
        group, _, name = key.rpartition(".")
        return replace(
            settings, **{group: replace(getattr(settings, group), **{name: value})} if group else {key: value}
        )
    value = in_memory(REGISTRY[f"selling.{own['cost']}"], plain, settings.currency)
    costs = {own["cost"]: value}
    merged = {**settings.by_category, own["name"]: {**settings.by_category.get(own["name"], {}), **costs}}
    return replace(settings, by_category=merged)


def value_of(settings: Settings, key: str) -> Any:
    """The value in force of one key of the registry, in memory units: money in minor units.

    Examples
    --------
    >>> value_of(Settings(), "buying.freight"), value_of(Settings(), "currency")
    (25000.0, 'USD')
    """
    group, _, name = key.rpartition(".")
    return getattr(getattr(settings, group), name) if group else getattr(settings, key)


def changed_keys(one: Settings, other: Settings) -> tuple[str, ...]:
    """Keys whose value differs, in the registry's order, categories' own costs last.

    Examples
    --------
    >>> changed_keys(Settings(), with_setting(Settings(), "goals.confidence", 0.9))
    ('goals.confidence',)
    """
    general = [key for key in REGISTRY if value_of(one, key) != value_of(other, key)]
    return (*general, *_changed_costs(one.by_category, other.by_category))


def _changed_costs(one: Mapping[str, Mapping[str, Any]], other: Mapping[str, Mapping[str, Any]]) -> list[str]:
    found = []
    for name in sorted(one.keys() | other.keys()):
        before, after = one.get(name, {}), other.get(name, {})
        costs = [cost for cost in before.keys() | after.keys() if before.get(cost) != after.get(cost)]
        found += [f'selling.by_category."{name}".{cost}' for cost in sorted(costs)]
    return found


def category_of(key: str) -> str | None:
    """The category that a key is about; None for every other key.

    Examples
    --------
    >>> category_of('selling.by_category."Toys > Dolls".packing'), category_of("selling.packing")
    ('Toys > Dolls', None)
    """
    own = _OF_CATEGORY.fullmatch(key)
    return own["name"] if own else None
