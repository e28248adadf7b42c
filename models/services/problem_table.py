"""All rows with a doubt as one CSV file (RFC 4180), to be mended beside the seller's own file."""

import csv
import io
from collections.abc import Iterable

from models.store.records import ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.problems import RowProblem
from models.values.spreadsheet_text import harmless

COLUMNS = ("row", "column", "value", "reason", "done")


def import_problem_table(work: UnitOfWork, shop: ShopId, import_id: str) -> str:
    """Every problem of a sold history."""
    return _table(work.uploads.all_problems(shop, work.imports.require_upload(shop, import_id).id))


def lot_problem_table(work: UnitOfWork, shop: ShopId, lot_id: str) -> str:
    """Every problem of a manifest."""
    return _table(work.uploads.all_problems(shop, work.lots.require_upload(shop, lot_id).id))


def _table(problems: Iterable[RowProblem]) -> str:
    written = io.StringIO()
    table = csv.writer(written)
    table.writerow(COLUMNS)
    for one in problems:
        table.writerow([one.row, *map(harmless, (one.column, one.value, one.reason, one.done))])
    return written.getvalue()
