"""A shop's settings: what it gave, what its history taught, what is assumed."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from zoneinfo import available_timezones

from models.services.plain_text import storable
from models.store.records import ShopId, SourceRecord
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Conflict, Rejected
from models.values.given import Given, read_given
from models.values.in_force import Assumption, in_force


@dataclass(frozen=True)
class ShopSettings:
    """`given`, `learned` and `assumed` are settings documents; `in_force` lists every key with its origin and range."""

    version: int  # for If-Match
    given: Given
    learned: Given
    assumed: Given
    in_force: tuple[Assumption, ...]


def read_settings(work: UnitOfWork, shop: ShopId) -> ShopSettings:
    """Settings as they stand; `learned` is the active model version's."""
    kept = work.settings.get(shop)
    number = work.models.get_active_number(shop)
    learned = work.models.require(shop, number).learned if number is not None else {}
    held = in_force([{"currency": work.shops.require(shop).currency} | kept.given], learned)
    assumed: Given = {}
    for one in held.assumptions:
        group, _, name = one.key.rpartition(".")
        if one.source == "assumed" and one.value is not None:
            (assumed.setdefault(group, {}) if group else assumed)[name] = one.value
    return ShopSettings(kept.version, kept.given, learned, assumed, held.assumptions)


def put_settings(work: UnitOfWork, shop: ShopId, document: Mapping[str, Any], version: int) -> ShopSettings:
    """Replace what the shop gave; StaleVersion unless `version` is the current one, Rejected for unusable values.

    Conflict on a change of currency once amounts are stored: they are never converted.
    """
    given = read_given(document)
    held = work.shops.require(shop)
    currency = given.get("currency", held.currency)
    if currency != held.currency:
        if work.imports.any(shop) or work.lots.any(shop):
            raise Conflict(f"This shop holds amounts in {held.currency}; they cannot become {currency}.")
        work.shops.set_currency(shop, currency)
    work.settings.put(shop, given, version)
    return read_settings(work, shop)


def set_time_zone(work: UnitOfWork, shop: ShopId, time_zone: str) -> None:
    """Change the zone that dates are told in; Rejected if it is not one."""
    if time_zone not in available_timezones():
        raise Rejected(f"'{time_zone}' is not a time zone such as Europe/Berlin.", {"time_zone": "not a time zone"})
    work.shops.set_time_zone(shop, time_zone)


def read_sources(work: UnitOfWork, shop: ShopId) -> tuple[SourceRecord, ...]:
    """Who offered lots so far, by name."""
    return work.sources.all(shop)


def put_source_settings(
    work: UnitOfWork, shop: ShopId, name: str, document: Mapping[str, Any], version: int
) -> SourceRecord:
    """Replace the buying terms of a source; StaleVersion unless `version` is the current one."""
    return work.sources.put(shop, storable(name, "The source's name"), read_given(document), version)
