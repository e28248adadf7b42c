"""What an evaluation will be asked, fixed when it is queued, so that a second run gives the same answer."""

import datetime as dt
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from models.services.clock import local_date
from models.store.records import LineEditRecord, LotRecord, ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Rejected
from models.values.given import Given

DEFAULT_SEED = 1
LARGEST_SEED = 2**53 - 1  # what JSON numbers carry exactly everywhere


@dataclass(frozen=True)
class FrozenQuestion:
    """`given` is lot, source, shop; `model_version` None: there was none, the lot waits for the first one."""

    given: tuple[Given, ...]
    model_version: int | None
    seed: int
    as_of: dt.date
    zone: str  # the shop's time zone
    edits: tuple[Mapping[str, Any], ...] = ()  # what was typed in for single lines, by the file's row

    def as_payload(self) -> dict[str, Any]:
        """The question as a job's JSON."""
        return {
            "given": list(self.given),
            "model_version": self.model_version,
            "seed": self.seed,
            "as_of": self.as_of.isoformat(),
            "zone": self.zone,
            "edits": list(self.edits),
        }

    @staticmethod
    def of_payload(payload: Mapping[str, Any]) -> "FrozenQuestion":
        """The question a job carries."""
        as_of = dt.date.fromisoformat(payload["as_of"])
        asked = payload["model_version"], payload["seed"], as_of, payload["zone"]
        return FrozenQuestion(tuple(payload["given"]), *asked, tuple(payload.get("edits", ())))


def freeze_question(work: UnitOfWork, shop: ShopId, lot: LotRecord, model_version: int | None) -> FrozenQuestion:
    """The lot's own settings, its source's and the shop's, and its lines' edits as they stand now, under one model."""
    held = work.shops.require(shop)
    source = work.sources.get(shop, lot.source) if lot.source else None
    shop_given = {"currency": held.currency} | work.settings.get(shop).given
    given = (lot.given, source.given if source else {}, shop_given)
    as_of = lot.as_of or local_date(held.time_zone)
    edits = [
        {"row": one.row, "looked_up": list(one.looked_up), "action": one.action} for one in _edited(work, shop, lot)
    ]
    return FrozenQuestion(given, model_version, lot.seed, as_of, held.time_zone, tuple(edits))


def _edited(work: UnitOfWork, shop: ShopId, lot: LotRecord) -> Iterator[LineEditRecord]:
    """Edits that say something."""
    return (one for one in work.line_edits.all(shop, lot.id) if one.looked_up or one.action)


def checked_seed(seed: int | None) -> int:
    """The seed, or the default one; Rejected if it is not a whole number that JSON carries."""
    if seed is None:
        return DEFAULT_SEED
    if not 0 <= seed <= LARGEST_SEED:
        raise Rejected(f"The seed must be a whole number from 0 to {LARGEST_SEED}.")
    return seed
