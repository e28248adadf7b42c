"""Workbook -> grids, one a visible sheet: XLSX, XLSB, XLS and ODS through calamine, numbers and dates typed."""

import datetime as dt
import io
import math
from collections.abc import Callable
from typing import Any

from python_calamine import (
    CalamineError,
    CalamineSheet,
    CalamineWorkbook,
    PasswordError,
    SheetTypeEnum,
    SheetVisibleEnum,
)

from models.intake.grid import Cell, Grid, unwrapped
from models.intake.limits import MAX_CELLS, MAX_COLUMNS, MAX_ROWS
from models.values.errors import TooLarge, Unreadable


def workbook_grids(data: bytes, name: str) -> list[Grid]:
    """The visible sheets that hold anything, in the workbook's order.

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
        If a sheet is over a limit of rows, columns or cells.
    """
    try:
        with CalamineWorkbook.from_filelike(io.BytesIO(data)) as book:
            grids = [_grid(book.get_sheet_by_name(sheet), name) for sheet in _visible(book)]
    except PasswordError as error:
        raise Unreadable(f"{name} is locked with a password. Save it without one and upload that.") from error
    except (CalamineError, ValueError, OverflowError) as error:
        raise Unreadable(_broken(name)) from error
    except BaseException as error:
        if (
            type(error).__name__ != "PanicException"
        ):  # what the Rust reader raises past Exception, by a class not exported
            raise
        raise Unreadable(_broken(name)) from error
    filled = [grid for grid in grids if any(any(cell != "" for cell in row) for row in grid.rows)]
    if not filled:
        raise Unreadable(f"{name} is empty: no sheet holds anything.")
    return filled


def _broken(name: str) -> str:
    return f"{name} is a broken workbook. Open it, save it again and upload that."


def _visible(book: CalamineWorkbook) -> list[str]:
    return [
        sheet.name
        for sheet in book.sheets_metadata
        if sheet.typ == SheetTypeEnum.WorkSheet and sheet.visible == SheetVisibleEnum.Visible
    ]


def _grid(sheet: CalamineSheet, name: str) -> Grid:
    if sheet.start is None:
        return Grid(sheet.name, [], 1)
    if sheet.height > MAX_ROWS or sheet.height * sheet.width > MAX_CELLS:
        raise TooLarge(f"{name}: sheet '{sheet.name}' has more rows or cells than can be read. Split it.")
    rows = [[_READ[type(cell)](cell) for cell in row] for row in sheet.iter_rows()]
    if sheet.width > MAX_COLUMNS:
        if any(cell != "" for row in rows for cell in row[MAX_COLUMNS:]):
            raise TooLarge(f"{name}: sheet '{sheet.name}' has more than {MAX_COLUMNS} columns.")
        rows = [row[:MAX_COLUMNS] for row in rows]
    return Grid(sheet.name, rows, 1)


def _number(value: float) -> Cell:
    if not math.isfinite(value):
        return ""
    return int(value) if value == int(value) and abs(value) < 1e15 else value


def _duration(value: dt.timedelta) -> str:
    minutes, seconds = divmod(round(value.total_seconds()), 60)
    return f"{minutes // 60}:{minutes % 60:02d}:{seconds:02d}"


_READ: dict[type, Callable[[Any], Cell]] = {
    str: unwrapped,
    int: int,
    float: _number,
    bool: lambda value: "TRUE" if value else "FALSE",
    dt.datetime: lambda value: value.date(),
    dt.date: lambda value: value,
    dt.time: lambda value: value.strftime("%H:%M:%S"),
    dt.timedelta: _duration,
}
