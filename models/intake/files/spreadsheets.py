"""Workbook -> grids, one a sheet: XLSX, XLSM, XLSB, XLS and ODS through calamine, numbers and dates typed."""

import datetime as dt
import io
import math
from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from itertools import islice
from typing import Any

from python_calamine import (
    CalamineError,
    CalamineSheet,
    CalamineWorkbook,
    PasswordError,
    SheetTypeEnum,
    SheetVisibleEnum,
)

from models.intake.files.damage import CellCleaner
from models.intake.files.sheet_marks import Marks
from models.intake.files.workbook_marks import marks_of
from models.intake.grid import Cell, CellNote, Grid
from models.intake.limits import limits_in_force
from models.values.errors import TooLarge, Unreadable

_PIECE = 512  # rows looked at together
_SAMPLE = 64  # of them, to see whether texts come often
_COMPOUND = b"\xd0\xcf\x11\xe0"
_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")  # [MS-OFFCRYPTO] 2.3.4.4
_MOST_WHOLE = 1e15  # a spreadsheet keeps fifteen digits


def workbook_grids(data: bytes, name: str) -> list[Grid]:
    """The sheets that hold anything, in the workbook's order; hidden ones say so.

    Parameters
    ----------
    data : bytes
        The whole file.
    name : str
        Its name, for messages only.

    Raises
    ------
    Unreadable
        If the workbook is broken, locked with a password or empty.
    TooLarge
        If a visible sheet is over a limit of rows, columns or cells.
    """
    try:
        with ThreadPoolExecutor(1) as beside, CalamineWorkbook.from_filelike(io.BytesIO(data)) as book:
            read = beside.submit(marks_of, data).result  # while the sheets are read, which leaves Python free
            grids = [replace(grid, blind=_blind(data, read(), grid.name)) for grid in _grids(book, read, name)]
    except PasswordError as error:
        raise Unreadable(_locked(name)) from error
    except (CalamineError, ValueError, OverflowError) as error:
        raise Unreadable(_locked(name) if _is_encrypted(data) else _broken(name)) from error
    except BaseException as error:
        if (
            type(error).__name__ != "PanicException"
        ):  # what the Rust reader raises past Exception, by a class not exported
            raise
        raise Unreadable(_broken(name)) from error
    filled = [grid for grid in grids if any(any(cell != "" for cell in row) for row in grid.rows)]
    if not any(not grid.hidden for grid in filled):
        raise Unreadable(f"{name} is empty: no sheet that can be seen holds anything.")
    return filled


def _locked(name: str) -> str:
    return f"{name} is locked with a password. Save it without one and upload that."


def _is_encrypted(data: bytes) -> bool:
    """A compound file around an encrypted workbook: its directory names the stream that holds it."""
    return data.startswith(_COMPOUND) and _ENCRYPTED in data


def _broken(name: str) -> str:
    return f"{name} is a broken workbook. Open it, save it again and upload that."


def _blind(data: bytes, marks: Mapping[str, Marks] | None, sheet: str) -> str:
    """The kind of file, where its records of hidden rows are not read here or could not be."""
    if not data.startswith(b"PK"):
        return "XLS"
    if b"xl/workbook.bin" in data:
        return "XLSB"
    if marks is not None and sheet in marks:
        return ""
    return "XLSX" if b"xl/workbook.xml" in data else "ODS"


def _grids(book: CalamineWorkbook, marks: Callable[[], Mapping[str, Marks] | None], name: str) -> list[Grid]:
    grids = []
    for about in book.sheets_metadata:
        if about.typ != SheetTypeEnum.WorkSheet:
            continue
        sheet, hidden = book.get_sheet_by_name(about.name), about.visible != SheetVisibleEnum.Visible
        try:
            grids.append(_grid(sheet, (marks() or {}).get(about.name, Marks()), hidden, name))
        except TooLarge:
            if not hidden:
                raise
    return grids


def _grid(sheet: CalamineSheet, marks: Marks, hidden: bool, name: str) -> Grid:
    if sheet.start is None:
        return Grid(sheet.name, [], 1)
    _require_room(sheet, name)
    clean = CellCleaner(limits_in_force().max_cell_characters)
    notes = list(marks.notes)
    rows: list[list[Cell]] = []
    source = sheet.iter_rows()
    while piece := list(islice(source, _PIECE)):
        columns = [quickly_read(list(cells), clean) for cells in zip(*piece, strict=True)]
        if None not in columns:
            rows += map(list, zip(*columns, strict=True))
            continue
        for row in piece:
            rows.append([clean[cell] if type(cell) is str else _READ[type(cell)](cell) for cell in row])
            if clean.damage:
                notes += _damaged(clean, len(rows), row)
    rows = _within_width(rows, sheet, name)
    merged = tuple((top, left, bottom, right) for (top, left), (bottom, right) in sheet.merged_cell_ranges or ())
    merged += tuple(marks.merged)
    grid = Grid(sheet.name, rows, 1, False, frozenset(), tuple(notes), merged, frozenset(marks.hidden_rows), hidden)
    return replace(grid, formats=tuple(sorted(marks.formats)))


def quickly_read(cells: list[Any], clean: CellCleaner) -> list[Cell] | None:
    """Some cells of one column, told together; None where one of them must be cleaned.

    Examples
    --------
    >>> quickly_read([2.0, 0.5], CellCleaner(longest=10)), quickly_read(["Mug", " jug"], CellCleaner(longest=10))
    ([2, 0.5], None)
    """
    kinds = set(map(type, cells))
    if kinds == {float} and math.isfinite(sum(cells)) and -_MOST_WHOLE < min(cells) <= max(cells) < _MOST_WHOLE:
        if all(map(float.is_integer, cells)):
            return list(map(int, cells))
        return [int(cell) if cell.is_integer() else cell for cell in cells]
    often = kinds != {str} or len(set(cells[:_SAMPLE])) <= _SAMPLE / 2
    if often and not clean.damage:
        known: list[Any] = list(map(clean.get, cells))
        if known == cells:  # texts that were found clean before
            return known
    texts = cells if kinds == {str} else [cell for cell in cells if type(cell) is str]
    if not clean.leaves(texts):
        return None
    if not often:
        return cells
    share = clean.setdefault  # equal texts that come often are kept once
    return [share(cell, cell) if type(cell) is str else _READ[type(cell)](cell) for cell in cells]


def _damaged(clean: CellCleaner, number: int, row: list[Any]) -> list[CellNote]:
    return [
        CellNote(number, place, clean[cell], *clean.damage[cell])
        for place, cell in enumerate(row)
        if isinstance(cell, str) and cell in clean.damage
    ]


def _require_room(sheet: CalamineSheet, name: str) -> None:
    most = limits_in_force()
    if sheet.height > most.max_rows or sheet.height * sheet.width > most.max_cells:
        raise TooLarge(f"{name}: sheet '{sheet.name}' has more rows or cells than can be read. Split it.")


def _within_width(rows: list[list[Cell]], sheet: CalamineSheet, name: str) -> list[list[Cell]]:
    most = limits_in_force().max_columns
    if sheet.width <= most:
        return rows
    if any(cell != "" for row in rows for cell in row[most:]):
        raise TooLarge(f"{name}: sheet '{sheet.name}' has more than {most} columns.")
    return [row[:most] for row in rows]


def _number(value: float) -> Cell:
    if value.is_integer() and abs(value) < _MOST_WHOLE:
        return int(value)
    return value if math.isfinite(value) else ""


def _duration(value: dt.timedelta) -> str:
    minutes, seconds = divmod(round(value.total_seconds()), 60)
    return f"{minutes // 60}:{minutes % 60:02d}:{seconds:02d}"


_READ: dict[type, Callable[[Any], Cell]] = {
    int: int,
    float: _number,
    bool: lambda value: "TRUE" if value else "FALSE",
    dt.datetime: lambda value: value.date(),
    dt.date: lambda value: value,
    dt.time: lambda value: value.strftime("%H:%M:%S"),
    dt.timedelta: _duration,
}
