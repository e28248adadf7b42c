"""A work log as a file: one total a row, "2026-03-02,40,5"; the same entries that POST /work-log takes."""

import datetime as dt
from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np

from models.intake.cells.dates import Order, ambiguous_parts, read_dates
from models.intake.cells.number_texts import bare, decimal_of
from models.intake.files.delimited import delimited_grid
from models.intake.files.encodings import text_of
from models.services.reckoned_day import EARLIEST
from models.values.categories import plain_path
from models.values.errors import Rejected
from models.values.work_log import WorkLog, entry_faults

NEEDED, FURTHER = ("on", "items", "hours"), ("kind", "category", "note")
_HINT = "a work log is a CSV file with the headings on, items, hours and, if you like, kind, category, note"
MONTHS = 12
Entry = tuple[np.datetime64, float, float, str, str]
Said = Mapping[str, str]


def read_work_log(path: Path | None, as_of: dt.date | None = None) -> WorkLog | None:
    """The entries of a file, None without one; Rejected names the row and the cell that cannot be meant."""
    if path is None:
        return None
    headings, rows = _table(path)
    if missing := [name for name in NEEDED if name not in headings]:
        raise Rejected(f"{path}: no heading {' and no '.join(missing)}; {_HINT}.")
    said = [(number, _said(headings, row)) for number, row in rows if any(cell.strip() for cell in row)]
    order = _order(path, said)
    return WorkLog.of([_entry(path, number, one, order, as_of) for number, one in said])


def _table(path: Path) -> tuple[list[str], list[tuple[int, list[str]]]]:
    """Headings, and the rows below them with their numbers."""
    data = path.read_bytes()
    if not data.strip():
        return [], []
    try:
        grid = delimited_grid(text_of(data, path.name), path.name)
    except Rejected as error:
        raise Rejected(f"{path}: {error.message} {_HINT.capitalize()}.") from error
    rows = [[str(cell) for cell in row] for row in grid.rows]
    headings = [cell.strip().lower() for cell in rows[0]] if rows else []
    return headings, [(number, row) for number, row in enumerate(rows[1:], grid.first_row + 1)]


def _said(headings: Sequence[str], row: Sequence[str]) -> Said:
    cells = dict(zip(headings, row, strict=False))
    return {name: cells.get(name, "").strip() for name in (*NEEDED, *FURTHER)}


def _order(path: Path, rows: Sequence[tuple[int, Said]]) -> Order:
    """Of days such as 03/04/2026: as the others show it; points are written day first."""
    told = [(number, parts) for number, said in rows if (parts := ambiguous_parts(said["on"]))]
    day_first = any(parts[0] > MONTHS or parts[2] == "." for _, parts in told)
    month_first = any(parts[1] > MONTHS for _, parts in told)
    if told and day_first == month_first:
        number, parts = told[0]
        raise Rejected(f"{path}, row {number}: day or month first? Write the day as 2026-03-02.")
    return Order.MONTH if month_first else Order.DAY


def _entry(path: Path, number: int, said: Said, order: Order, as_of: dt.date | None) -> Entry:
    on = read_dates([said["on"]], order)[0].value
    items, hours = _number(said["items"]), _number(said["hours"])
    if on is None or items is None or hours is None:
        raise Rejected(f"{path}, row {number}: write a day as 2026-03-02, items and hours as numbers.")
    kind = said["kind"].lower()
    faults = entry_faults(items, hours, kind)
    latest = as_of or dt.date.max
    if not EARLIEST <= on <= latest:
        faults["on"] = f"must lie between {EARLIEST} and {latest}, the day to reckon from"
    if faults:
        raise Rejected(f"{path}, row {number}: " + "; ".join(f"{name} {why}" for name, why in faults.items()) + ".")
    return np.datetime64(on), items, hours, kind, plain_path(said["category"])


def _number(text: str) -> float | None:
    """2.5 or 2,5; a comma before one or two digits is a decimal one, before three it parts thousands."""
    core, below = bare(text)
    number = decimal_of(core, comma=False)[0] if core else None
    return None if number is None else -float(number) if below else float(number)
