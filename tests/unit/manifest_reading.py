"""Manifests built row by row, and what was read of them, for the tests of shapes and lots."""

import io
from typing import Any

import openpyxl
from intake_files import delimited

from models.intake.manifest import ReadManifest, read_manifest

HEADER = ["Item", "Qty", "Unit Retail", "Ext. Retail"]


def read(*rows: list[Any], name: str = "load.csv", mapping: dict[str, str] | None = None) -> ReadManifest:
    return read_manifest(delimited(rows), name, mapping or {}, "USD")


def goods(done: ReadManifest) -> list[tuple[int, str, int]]:
    lines = done.lines
    return list(zip(lines.row.tolist(), lines.description.tolist(), lines.quantity.tolist(), strict=True))


def said(done: ReadManifest) -> str:
    return " | ".join(caution.what for caution in done.cautions)


def saved(book: openpyxl.Workbook) -> bytes:
    data = io.BytesIO()
    book.save(data)
    return data.getvalue()


def sheet_of(*rows: list[Any]) -> tuple[openpyxl.Workbook, Any]:
    book = openpyxl.Workbook()
    sheet = book.active
    for row in rows:
        sheet.append(row)
    return book, sheet
