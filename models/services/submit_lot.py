"""Take a manifest in: keep its bytes, queue the evaluation. Nothing is computed here, so nothing can be lost."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from models.services.clock import local_date
from models.services.frozen_question import checked_seed, freeze_question
from models.services.named_columns import checked_mapping
from models.services.plain_text import plain_text, storable
from models.services.reckoned_day import reckoned_day
from models.services.submit_import import queue_for
from models.services.submitted import Submitted
from models.store.queries.lots import NewLot
from models.store.records import LotRecord, ShopId, Upload
from models.store.states import JobKind
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Rejected
from models.values.given import Given, read_given
from models.values.lines import LINE_COLUMNS

LONGEST_NAME = 200


@dataclass(frozen=True)
class LotAsked:
    """What comes with a manifest; `as_of` None: the shop's date at each evaluation."""

    name: str
    settings: Mapping[str, Any] = field(default_factory=dict)
    mapping: Mapping[str, str] = field(default_factory=dict)
    seed: int | None = None
    as_of: dt.date | None = None


def submit_lot(work: UnitOfWork, shop: ShopId, manifest: Upload, asked: LotAsked) -> Submitted[LotRecord]:
    """Keep the manifest, queue its reading and evaluation under the active model version, if there is one."""
    given = checked_lot_settings(work, shop, asked.settings)
    name = plain_text(asked.name, LONGEST_NAME) or plain_text(manifest.filename, LONGEST_NAME) or "Lot"
    named = checked_mapping(asked.mapping, LINE_COLUMNS)
    seed = checked_seed(asked.seed)
    as_of = reckoned_day(asked.as_of, local_date(work.shops.require(shop).time_zone))
    upload = work.uploads.add(shop, manifest)
    lot = work.lots.add(shop, upload, NewLot(name, given, named, seed, as_of))
    question = freeze_question(work, shop, lot, work.models.get_active_number(shop))
    payload = question.as_payload() | {"mapping": named}
    return Submitted(lot, work.jobs.queue(shop, JobKind.EVALUATE_LOT, queue_for(upload), lot.id, payload))


def checked_lot_settings(work: UnitOfWork, shop: ShopId, settings: Mapping[str, Any]) -> Given:
    """A lot's own settings; Rejected where unusable, or in another currency: amounts are never converted."""
    given = read_given(settings)
    storable(given.get("lot", {}).get("source", ""), "The source's name")
    currency = work.shops.require(shop).currency
    if given.get("currency", currency) != currency:
        raise Rejected(f"This shop counts in {currency}; amounts are never converted.", {"currency": "not the shop's"})
    return given
