"""Would the same ceiling come out now?  An evaluation never changes, but the shop around it does."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from models.services.frozen_question import FrozenQuestion, freeze_question
from models.store.records import LotRecord, ModelVersionRecord, ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.in_force import in_force


class Stale(StrEnum):
    """What changed since."""

    SETTINGS = "settings"  # the lot's, its source's or the shop's, where they make a difference to this lot
    LINES = "lines"  # what was typed in for single lines
    MODEL = "model"  # another model version is in use
    SALES = "sales"  # sold history has come, or changed, that the model version in use does not know


def is_stale(work: UnitOfWork, shop: ShopId, lot: LotRecord) -> tuple[Stale, ...]:
    """Every reason why a new evaluation would be asked something else; empty also where there is none to compare."""
    if lot.evaluation_id is None:
        return ()
    number, frozen = work.evaluations.frozen(shop, lot.evaluation_id)
    active = work.models.get_active_number(shop)
    now = freeze_question(work, shop, lot, active)
    checks = {
        Stale.SETTINGS: _other_settings(frozen, now),
        Stale.LINES: "edits" in frozen and list(now.edits) != frozen["edits"],
        Stale.MODEL: active is not None and active != number,
        Stale.SALES: active is not None and bool(unknown_sales(work, shop, work.models.require(shop, active)).rows),
    }
    return tuple(reason for reason, holds in checks.items() if holds)


@dataclass(frozen=True)
class UnknownSales:
    """Rows of sold history that a model version does not know as they are: `new` ones, `changed` or taken out ones."""

    new: int
    changed: int

    @property
    def rows(self) -> int:
        """All of them."""
        return self.new + self.changed


def unknown_sales(work: UnitOfWork, shop: ShopId, version: ModelVersionRecord) -> UnknownSales:
    """What came or changed since a model version was fitted; none where it did not tell what it was fitted on."""
    rows, change = version.facts.get("rows"), version.facts.get("change", 0)
    if rows is None:
        return UnknownSales(0, 0)
    now, written = work.sales.count(shop), work.sales.count_written_since(shop, int(change))
    new = max(0, now - int(rows))
    gone = int(rows) - (now - written)
    return UnknownSales(new, max(0, written - new, gone))


def _other_settings(frozen: Mapping[str, Any], now: FrozenQuestion) -> bool:
    """In force, not as given: a changed freight of the shop is no news to a lot that has its own."""
    if "given" not in frozen:
        return False
    learned = frozen.get("learned", {})
    return in_force(frozen["given"], learned).settings != in_force(now.given, learned).settings
