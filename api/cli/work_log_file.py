"""A work log as a file: one total a row, "2026-03-02,40,5"; the same entries that POST /work-log takes."""

import csv
import datetime as dt
from collections.abc import Mapping
from pathlib import Path

import numpy as np

from models.values.categories import plain_path
from models.values.errors import Rejected
from models.values.work_log import WorkLog, entry_faults

NEEDED, FURTHER = ("on", "items", "hours"), ("kind", "category", "note")
_HINT = "a work log is a CSV file with the headings on, items, hours and, if you like, kind, category, note"
Entry = tuple[np.datetime64, float, float, str, str]


def read_work_log(path: Path | None) -> WorkLog | None:
    """The entries of a file, None without one; Rejected names the row and the cell that cannot be meant."""
    if path is None:
        return None
    try:
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        raise Rejected(f"{path}: not a text file; {_HINT}.") from error
    rows = csv.DictReader(text.splitlines())
    headings = [(name or "").strip().lower() for name in rows.fieldnames or ()]
    if missing := [name for name in NEEDED if name not in headings]:
        raise Rejected(f"{path}: no heading {' and no '.join(missing)}; {_HINT}.")
    rows.fieldnames = headings
    return WorkLog.of([_entry(path, rows.line_num, row) for row in rows])


def _entry(path: Path, number: int, row: Mapping[str, str | None]) -> Entry:
    said = {name: (row.get(name) or "").strip() for name in (*NEEDED, *FURTHER)}
    try:
        on = dt.date.fromisoformat(said["on"])
        items, hours = float(said["items"]), float(said["hours"])
    except ValueError as error:
        raise Rejected(f"{path}, row {number}: write a day as 2026-03-02, items and hours as numbers.") from error
    kind = said["kind"].lower()
    if faults := entry_faults(items, hours, kind):
        raise Rejected(f"{path}, row {number}: " + "; ".join(f"{name} {why}" for name, why in faults.items()) + ".")
    return np.datetime64(on), items, hours, kind, plain_path(said["category"])
