"""What waits to be listed: the shop's settings in force and the projection of its newest evaluation."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from models.appraisal.pace_words import HOURS, beside_stated
from models.services.shop_settings import read_settings
from models.store.records import ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.in_force import Assumption


@dataclass(frozen=True)
class BacklogView:
    """`before` is {units, hours, weeks_to_clear, clears_on, grows_hours_per_week} of the newest evaluation, if any."""

    settings: tuple[Assumption, ...]
    before: Mapping[str, Any] | None
    weekly: tuple[Mapping[str, Any], ...]  # [{week, hours_before}]
    lot_id: str | None
    as_of: dt.date | None
    pace: Mapping[str, Any] | None  # as the model in use measured it, None where listing dates do not tell


def read_backlog(work: UnitOfWork, shop: ShopId) -> BacklogView:
    """The backlog without any lot, as last computed; its settings as they stand now."""
    settings = tuple(one for one in read_settings(work, shop).in_force if one.key.startswith("backlog."))
    newest = work.evaluations.get_newest(shop)
    backlog = newest.document.get("backlog", {}) if newest else {}
    weekly = tuple({"week": one["week"], "hours_before": one["hours_before"]} for one in backlog.get("weekly", ()))
    lot_id, as_of = (newest.lot_id, newest.as_of) if newest and backlog else (None, None)
    return BacklogView(settings, backlog.get("before"), weekly, lot_id, as_of, _pace(work, shop, settings))


def _pace(work: UnitOfWork, shop: ShopId, settings: tuple[Assumption, ...]) -> Mapping[str, Any] | None:
    """Beside the hours that hold now, if the seller gave them."""
    number = work.models.get_active_number(shop)
    told = None if number is None else work.models.require(shop, number).facts.get("pace")
    stated = [float(one.value) for one in settings if one.key == HOURS and one.source == "yours"]
    return None if told is None else beside_stated(told, stated[0] if stated else None)
