"""Totals of listing work, "40 items in 5 hours": kept, listed, taken back; the next training reads them."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from models.services.clock import local_date
from models.services.plain_text import plain_text
from models.services.reckoned_day import EARLIEST
from models.store.queries.work_log import NewEntry
from models.store.records import Page, ShopId
from models.store.unit_of_work import UnitOfWork
from models.store.work_log_record import WorkLogRecord
from models.values.errors import Rejected
from models.values.work_log import WorkLog, entry_faults

LONGEST_CATEGORY, LONGEST_NOTE = 200, 500


@dataclass(frozen=True)
class EntryAsked:
    """As it was typed; `on` None is today, blank texts say nothing."""

    items: int
    hours: float
    on: dt.date | None = None
    kind: str = ""
    category: str = ""
    note: str = ""


def add_entry(work: UnitOfWork, shop: ShopId, asked: EntryAsked) -> WorkLogRecord:
    """Keep an entry; Rejected, naming each field, where it cannot be meant."""
    today = local_date(work.shops.require(shop).time_zone)
    faults = _faults(asked, today)
    if faults:
        raise Rejected("This entry cannot be meant: " + "; ".join(f"{k} {why}" for k, why in faults.items()), faults)
    category, note = plain_text(asked.category, LONGEST_CATEGORY), plain_text(asked.note, LONGEST_NOTE)
    return work.work_log.add(shop, NewEntry(asked.on or today, asked.items, asked.hours, asked.kind, category, note))


def read_entries(work: UnitOfWork, shop: ShopId, limit: int = 50, cursor: str | None = None) -> Page[WorkLogRecord]:
    """Entries by their day, newest first."""
    return work.work_log.page(shop, limit, cursor)


def delete_entry(work: UnitOfWork, shop: ShopId, entry_id: str) -> None:
    """Take an entry back; NotFound if there is none."""
    work.work_log.delete(shop, entry_id)


def as_columns(entries: Sequence[WorkLogRecord]) -> WorkLog:
    """What the fit reads."""
    return WorkLog.of([(np.datetime64(one.on), one.items, one.hours, one.kind, one.category) for one in entries])


def _faults(asked: EntryAsked, today: dt.date) -> dict[str, str]:
    faults = entry_faults(asked.items, asked.hours, asked.kind)
    if asked.on is not None and not EARLIEST <= asked.on <= today:
        faults["on"] = f"must lie between {EARLIEST} and today, {today}"
    return faults
