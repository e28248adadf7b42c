"""What may reading a spoilt file come to?  Each thing that must not happen is told in words; none is what we want.

Any way: only errors of the `Rejected` family, and counts add up.
Keeping: every column of the table is the clean one's, and nothing more is named.
Cells: a row that is used differs from the clean one only in cells that were changed or are named; a row that is not
used is named and was changed; a changed cell that reads as blank is named, unless it says "nothing" itself.
"""

from collections.abc import Iterator
from functools import lru_cache
from typing import Any

import numpy as np

from models.bench.files.mutations import CELLS, KEEPING, Spoilt
from models.bench.files.sheets import COLUMNS, MANIFEST
from models.intake.history import ReadHistory, read_history
from models.intake.manifest import ReadManifest, read_manifest
from models.values.errors import NeedsColumns, Rejected

Read = ReadManifest | ReadHistory
Row = tuple[Any, ...]
NOTHING = ("", "-", "N/A", "?", "None", "NaN", "#REF!", "0")
_PER_UNIT = ("fees", "sold_price")  # of a history: they follow the quantity


def faults_of(case: Spoilt) -> list[str]:
    """What went wrong; errors that are no answer pass through."""
    try:
        found = read(case.sheet.kind, case.data, case.filename)
    except Rejected as error:
        if case.way == KEEPING:
            return [f"refused: {error.message}"]
        asked = isinstance(error, NeedsColumns) or case.way != CELLS
        return [] if asked else [f"refused: {error.message}"]
    faults = list(_counts(found))
    if case.way == KEEPING:
        faults += _kept(case, found)
    elif case.way == CELLS:
        faults += _cells(case, found)
    return faults


def read(kind: str, data: bytes, filename: str) -> Read:
    """A manifest or a sold history."""
    return (read_manifest if kind == MANIFEST else read_history)(data, filename, {}, "USD")


@lru_cache(maxsize=200)
def _clean(kind: str, data: bytes) -> tuple[dict[int, Row], int]:
    """Rows by their place, and how many cells were named."""
    found = read(kind, data, "m.csv")
    return _rows(kind, found), len(found.problems.items)


def _rows(kind: str, found: Read) -> dict[int, Row]:
    table = found.lines if isinstance(found, ReadManifest) else found.sales
    columns = [getattr(table, name).tolist() for name in COLUMNS[kind]]
    cells = zip(*[[None if cell != cell else cell for cell in column] for column in columns], strict=True)
    return dict(zip(table.row.tolist(), cells, strict=True))


def _counts(found: Read) -> Iterator[str]:
    told = found.problems
    if told.rows != told.kept + told.set_aside:
        yield f"{told.rows} rows are not {told.kept} kept and {told.set_aside} set aside"
    if isinstance(found, ReadManifest):
        lines = found.lines
        if told.kept != len(lines):
            yield f"{told.kept} kept, {len(lines)} lines"
        if (lines.quantity < 1).any() or (lines.tag_each < 0).any() or not all(lines.description):
            yield "a line without description, with less than one unit or a tag below zero"
    elif (found.sales.quantity < 1).any() or (np.nan_to_num(found.sales.sold_price) < 0).any():
        yield "a sale of less than one unit, or below zero"


def _kept(case: Spoilt, found: Read) -> Iterator[str]:
    clean, named = _clean(case.sheet.kind, case.clean)
    rows = _rows(case.sheet.kind, found)
    wanted = {place: clean.get(index + 2) for index, place in enumerate(case.rows) if index + 2 in clean}
    if rows != wanted:
        places = sorted(place for place in rows.keys() | wanted.keys() if rows.get(place) != wanted.get(place))
        yield f"row {places[0]}: {rows.get(places[0])} instead of {wanted.get(places[0])}"
    if len(found.problems.items) != named:
        yield f"{len(found.problems.items)} cells named instead of {named}"


def _cells(case: Spoilt, found: Read) -> Iterator[str]:
    clean, _ = _clean(case.sheet.kind, case.clean)
    rows = _rows(case.sheet.kind, found)
    named = {(item.row, item.column) for item in found.problems.items}
    touched = {row for row, _ in case.changed}
    for index, place in enumerate(case.rows):
        if place in rows:
            yield from _differing(case, index, rows[place], clean[index + 2], named)
        elif place not in {row for row, _ in named}:
            yield f"row {place} was dropped without a word: {case.changed}"
        elif index not in touched:
            yield f"row {place} was set aside, though {case.changed} changed"


def _differing(case: Spoilt, index: int, row: Row, clean: Row, named: set[tuple[int, str]]) -> Iterator[str]:
    columns, place = COLUMNS[case.sheet.kind], case.rows[index]
    counted = (index, columns.index("quantity")) in case.changed
    for column, name in enumerate(columns):
        told = (place, name) in named or (place, "") in named
        text = case.changed.get((index, column))
        if told or (counted and case.sheet.kind != MANIFEST and name in _PER_UNIT):
            continue
        if text is None and row[column] != clean[column]:
            yield f"row {place}, {name}: {clean[column]!r} became {row[column]!r} by {case.changed}"
        blank = row[column] in ("", None) or (name == "condition" and row[column] == -1)
        if text is not None and blank and text not in NOTHING:
            yield f"row {place}, {name}: {text!r} was emptied without a word"
