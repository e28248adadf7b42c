"""A shop that has one of everything, put into the store as jobs would have left it."""

import datetime as dt
from dataclasses import dataclass

import numpy as np
from api_world import Shop, World
from evaluation_document import document, line

from models.services.activate_model import activate_model
from models.services.frozen_question import freeze_question
from models.services.submit_import import submit_import
from models.services.submit_lot import LotAsked, submit_lot
from models.services.submit_training import submit_training
from models.services.work_log import EntryAsked, add_entry
from models.store.queries.evaluations import NewEvaluation
from models.store.queries.model_versions import Fitted
from models.store.records import FileFacts, Upload
from models.store.states import FileState
from models.values.arrays import texts
from models.values.lines import Lines
from models.values.problems import Caution, RowProblem

DOUBT = RowProblem(5, "quantity", "-3", "a negative quantity", "row set aside")


@dataclass(frozen=True)
class Full:
    """Ids of what the shop has."""

    import_id: str
    lot_id: str
    job_id: str
    number: int
    entry_id: str


def fill(world: World, shop: Shop, verdict: str = "bid") -> Full:
    """One import, one active model version, one evaluated lot, their jobs."""
    facts = FileFacts({"description": "Item"}, ("Item", "Count"), (), 4, 3, 1, (Caution("Two currencies.", "Look."),))
    with world.store.write() as work:
        made = submit_import(work, shop.id, Upload("sold.csv", [b"title,sold_price\nLamp,12\n"])).subject
        upload = work.imports.require_upload(shop.id, made.id)
        work.uploads.save_facts(shop.id, upload.id, facts)
        work.uploads.save_problems(shop.id, upload.id, (DOUBT,))
        work.imports.set_state(shop.id, made.id, FileState.READY)
        training = submit_training(work, shop.id, dt.date(2026, 6, 30)).subject
        known = {
            "rows": work.sales.count(shop.id),
            "change": work.sales.last_change(shop.id),
            "known_until": "2026-06-28",
        }
        fitted = Fitted(b"model", "f" * 64, 812, {"backlog": {"hours_per_week": 14.2}}, known)
        work.models.save_fitted(shop.id, training.id, fitted)
        activate_model(work, shop.id, training.number)
        entry = add_entry(work, shop.id, EntryAsked(40, 5.0, dt.date(2026, 6, 29), "used", "Toys", "a slow day"))
        submitted = submit_lot(work, shop.id, Upload("pallet.csv", [b"Item\nLamp\n"]), LotAsked("Pallet 7"))
        _evaluate(work, shop, submitted, facts, verdict, training.number)
    assert submitted.job is not None
    return Full(made.id, submitted.subject.id, submitted.job.id, training.number, entry.id)


def _evaluate(work, shop, submitted, facts, verdict, number):  # type: ignore[no-untyped-def]
    lot_id = submitted.subject.id
    upload = work.lots.require_upload(shop.id, lot_id)
    work.uploads.save_facts(shop.id, upload.id, facts)
    work.uploads.save_problems(shop.id, upload.id, (DOUBT,))
    work.lines.replace(shop.id, lot_id, _lines())
    work.lots.save_read(shop.id, lot_id, 3, 9, 35100.0)
    asked = freeze_question(work, shop.id, work.lots.require(shop.id, lot_id), number)
    learned = work.models.require(shop.id, number).learned
    frozen = {"given": list(asked.given), "learned": learned, "edits": []}
    given = {"model_version": number, "seed": 1, "as_of": dt.date(2026, 6, 30), "draw_format": 1, "frozen": frozen}
    lines = [line(no) for no in (1, 2, 3)]
    new = NewEvaluation(**given, document=document(verdict), lines=lines, components=b"draws")
    work.evaluations.add(shop.id, lot_id, submitted.job.id, new)


def _lines() -> Lines:
    number, blank = np.array([1, 2, 3]), texts([""] * 3)
    return Lines(
        no=number, row=number + 1, description=texts(["Desk lamp"] * 3), brand=blank, category=blank,
        condition=np.full(3, 2, np.int8), quantity=np.full(3, 3), tag_each=np.full(3, 3900.0), sku=blank, gtin=blank,
        weight_kg=np.full(3, np.nan), pallet=blank, assorted=np.zeros(3, bool),
    )  # fmt: skip
