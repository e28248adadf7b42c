"""A shop's settings: what it gave, what its history taught, what is assumed."""

from collections.abc import Mapping, Sequence
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
    return _standing(work, shop, kept.version, kept.given, [kept.given])


def _standing(work: UnitOfWork, shop: ShopId, version: int, given: Given, layers: Sequence[Given]) -> ShopSettings:
    """`given` as kept under `version`; what is in force follows from all `layers`, the most particular first."""
    number = work.models.get_active_number(shop)
    learned = work.models.require(shop, number).learned if number is not None else {}
    held = in_force([*layers, {"currency": work.shops.require(shop).currency}], learned)
    assumed: Given = {}
    for one in held.assumptions:
        group, _, name = one.key.rpartition(".")
        if one.source == "assumed" and one.value is not None:
            (assumed.setdefault(group, {}) if group else assumed)[name] = one.value
    return ShopSettings(version, given, learned, assumed, held.assumptions)


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


def read_source_settings(work: UnitOfWork, shop: ShopId, name: str) -> ShopSettings:
    """The terms given for a source, and what holds for its lots; version 1 and no terms where it is not known yet."""
    known = work.sources.get(shop, _source_name(name))
    version, given = (1, {}) if known is None else (known.version, known.given)
    return _standing(work, shop, version, given, [given, work.settings.get(shop).given])


def put_source_settings(
    work: UnitOfWork, shop: ShopId, name: str, document: Mapping[str, Any], version: int
) -> ShopSettings:
    """Replace the terms of a source, made where it is new; they go before the shop's in the lots that name it.

    StaleVersion unless `version` is the current one, Rejected for unusable values or another currency.
    """
    given, currency = read_given(document), work.shops.require(shop).currency
    if given.get("currency", currency) != currency:
        raise Rejected(f"This shop counts in {currency}; amounts are never converted.", {"currency": "not the shop's"})
    if "source" in given.get("lot", {}):
        raise Rejected("A source's terms cannot name another source.", {"lot.source": "not here"})
    work.sources.put(shop, _source_name(name), given, version)
    return read_source_settings(work, shop, name)


def _source_name(name: str) -> str:
    """As a lot's settings name it."""
    return storable(str(read_given({"lot": {"source": name}})["lot"]["source"]), "The source's name")
