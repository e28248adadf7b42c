"""A small shop's files, and waiting for what workers make of them."""

import csv
import io
import itertools
from pathlib import Path
from typing import Any

from working import until

from models.services.read_evaluations import read_evaluation, read_evaluations
from models.services.read_jobs import read_job
from models.services.submit_import import submit_import
from models.services.submit_lot import LotAsked, submit_lot
from models.services.users import add_user
from models.store.records import JobRecord, LotRecord, ShopId, Upload
from models.store.states import FileState, JobState
from models.store.unit_of_work import Publish, Store

HISTORY = Path(__file__).parents[2] / "demo_data" / "sold_history.csv"
OVER = (JobState.DONE, JobState.FAILED, JobState.CANCELLED)


def history(rows: int) -> bytes:
    """The first rows of the invented shop's history."""
    with HISTORY.open("rb") as file:
        return b"".join(itertools.islice(file, rows + 1))


def manifest(lines: int) -> bytes:
    """Goods of that history, over and over in other numbers and conditions."""
    goods = list(csv.DictReader(io.StringIO(history(400).decode())))
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(("description", "brand", "category", "condition", "quantity"))
    for no in range(lines):
        one = goods[no % len(goods)]
        title = one["Title"] if no % 3 else f"{one['Title']} No {no}"
        writer.writerow((title, one["Brand"], one["Category"], one["Condition"], no % 4 + 1))
    return out.getvalue().encode()


class Service:
    """What the web process would hold: a store and a bell."""

    def __init__(self, store: Store, publish: Publish) -> None:
        self.store, self.publish = store, publish
        with store.write() as work:
            self.shop: ShopId = add_user(work, "seller@example.org").shop.id

    def import_sales(self, content: bytes) -> JobRecord:
        with self.store.write(self.publish) as work:
            return submit_import(work, self.shop, Upload("history.csv", [content])).job

    def add_lot(self, content: bytes, name: str = "A lot") -> JobRecord:
        with self.store.write(self.publish) as work:
            return submit_lot(work, self.shop, Upload("manifest.csv", [content]), LotAsked(name)).job

    def job(self, job_id: str) -> JobRecord:
        with self.store.read() as work:
            return read_job(work, self.shop, job_id)

    def lot(self, lot_id: str) -> LotRecord:
        with self.store.read() as work:
            return work.lots.require(self.shop, lot_id)

    def end_of(self, job: JobRecord, seconds: float = 60) -> JobRecord:
        return until(
            lambda: one if (one := self.job(job.id)).state in OVER else None, seconds, lambda: str(self.job(job.id))
        )

    def evaluated(self, lot_id: str, seconds: float = 60) -> LotRecord:
        ends = (FileState.READY, FileState.FAILED)
        return until(
            lambda: one if (one := self.lot(lot_id)).state in ends else None, seconds, lambda: str(self.lot(lot_id))
        )

    def document(self, lot_id: str) -> dict[str, Any]:
        """The current evaluation and its lines, without the ids and times that differ between two runs."""
        with self.store.read() as work:
            found = read_evaluation(work, self.shop, lot_id)
            lines = work.evaluations.all_lines(self.shop, found.id)
            draws = work.evaluations.components(self.shop, found.id)
        document = {key: value for key, value in found.document.items() if key != "id"}
        return document | {"lines": list(lines), "draws": draws}

    def evaluations(self, lot_id: str) -> int:
        with self.store.read() as work:
            return len(read_evaluations(work, self.shop, lot_id).items)
