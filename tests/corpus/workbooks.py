"""Workbooks as people make them: several sheets, merged and hidden cells, formulas nobody calculated."""

import datetime as dt
import gzip
import io
import zipfile
from collections.abc import Callable, Mapping
from typing import Any

import openpyxl
from openpyxl.worksheet.worksheet import Worksheet
from unit.intake_files import Rows

GOODS: Rows = [["Description", "Qty", "Unit Retail"], ["Blue mug", 2, 9.5], ["Tin kettle", 3, 24], ["Floor mat", 1, 7]]
GOODS_TABLE: Mapping[str, list[Any]] = {
    "description": ["Blue mug", "Tin kettle", "Floor mat"],
    "quantity": [2, 3, 1],
    "tag_each": [950, 2400, 700],
}


def book(sheets: Mapping[str, Rows], change: Callable[[Any], None] = lambda workbook: None) -> bytes:
    """An XLSX workbook of these sheets, in order, then changed."""
    workbook = openpyxl.Workbook()
    workbook.remove(workbook.active)
    for name, rows in sheets.items():
        sheet = workbook.create_sheet(name)
        for row in rows:
            sheet.append(list(row))
    change(workbook)
    data = io.BytesIO()
    workbook.save(data)
    return data.getvalue()


def sheet_of(workbook: Any, name: str) -> Worksheet:
    """A sheet by its name."""
    sheet = workbook[name]
    assert isinstance(sheet, Worksheet)
    return sheet


def merged(rows: Rows, *ranges: str) -> bytes:
    """One sheet with merged cells, whose text stands in the first of them alone."""

    def merge(workbook: Any) -> None:
        for where in ranges:
            sheet_of(workbook, "Sheet").merge_cells(where)

    return book({"Sheet": rows}, merge)


def with_hidden_rows(rows: Rows, *numbers: int) -> bytes:
    """One sheet with rows that a filter has hidden."""

    def hide(workbook: Any) -> None:
        sheet = sheet_of(workbook, "Sheet")
        sheet.auto_filter.ref = sheet.dimensions
        for number in numbers:
            sheet.row_dimensions[number].hidden = True

    return book({"Sheet": rows}, hide)


def with_hidden_sheet(sheets: Mapping[str, Rows], hidden: str) -> bytes:
    """Several sheets, one of which is not shown."""

    def hide(workbook: Any) -> None:
        sheet_of(workbook, hidden).sheet_state = "hidden"

    return book(sheets, hide)


def gzipped(data: bytes) -> bytes:
    """Compressed with gzip."""
    return gzip.compress(data, mtime=0)


def zipped(files: Mapping[str, bytes]) -> bytes:
    """A zip archive of files."""
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return data.getvalue()


def day(text: str) -> dt.datetime:
    """A cell that holds a date."""
    return dt.datetime.fromisoformat(text)


def serial(text: str) -> int:
    """The number a spreadsheet keeps for a day."""
    return (dt.date.fromisoformat(text) - dt.date(1899, 12, 30)).days
