"""Builds tiny files as sellers have them: delimited text, XLSX, ODS and XLS, from rows of plain values.

XLS and ODS are written by hand, since nothing installed writes them: just enough of [MS-XLS] and [MS-CFB], and of
OpenDocument 1.3, for a reader to find one sheet.
"""

import csv
import io
import struct
import zipfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from xml.sax.saxutils import escape

import openpyxl

Rows = Sequence[Sequence[Any]]


def delimited(rows: Rows, delimiter: str = ",", encoding: str = "utf-8", end: str = "\r\n") -> bytes:
    """Delimited text."""
    text = io.StringIO()
    csv.writer(text, delimiter=delimiter, lineterminator=end).writerows(rows)
    return text.getvalue().encode(encoding)


def xlsx(rows: Rows, others: Mapping[str, Rows] | None = None, hidden: Sequence[str] = ()) -> bytes:
    """An XLSX workbook; `others` are further sheets by name."""
    book = openpyxl.Workbook()
    first = book.active
    assert first is not None
    for row in rows:
        first.append(list(row))
    for name, content in (others or {}).items():
        sheet = book.create_sheet(name)
        for row in content:
            sheet.append(list(row))
        if name in hidden:
            sheet.sheet_state = "hidden"
    data = io.BytesIO()
    book.save(data)
    return data.getvalue()


@dataclass(frozen=True)
class Tall:
    """A text of an ODS that covers several rows; the cells below it are blank."""

    text: str
    rows: int


def ods(rows: Rows, hidden_rows: Sequence[int] = ()) -> bytes:
    """An OpenDocument spreadsheet of texts, numbers and (number, currency); hidden rows are counted from 1."""
    body = "".join(
        f"<table:table-row{_ODS_FILTERED if number in hidden_rows else ''}>"
        + "".join(map(_ods_cell, row))
        + "</table:table-row>"
        for number, row in enumerate(rows, start=1)
    )
    spaces = " ".join(
        f'xmlns:{prefix}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"'
        for prefix, name in (("office", "office"), ("table", "table"), ("text", "text"))
    )
    content = (
        f'<?xml version="1.0" encoding="UTF-8"?><office:document-content {spaces}><office:body><office:spreadsheet>'
        f'<table:table table:name="Lines">{body}</table:table>'
        "</office:spreadsheet></office:body></office:document-content>"
    )
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w") as archive:
        archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        archive.writestr("META-INF/manifest.xml", _ODS_PARTS)
        archive.writestr("content.xml", content)
    return data.getvalue()


_ODS_FILTERED = ' table:visibility="filter"'
_ODS_PARTS = (
    '<?xml version="1.0" encoding="UTF-8"?>'
    '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
    '<manifest:file-entry manifest:full-path="content.xml" manifest:media-type="text/xml"/></manifest:manifest>'
)


def _ods_cell(value: Any) -> str:
    if value is None or value == "":
        return "<table:table-cell/>"
    if isinstance(value, tuple):
        return (
            f'<table:table-cell office:value-type="currency" office:currency="{value[1]}" office:value="{value[0]}"/>'
        )
    if isinstance(value, Tall):
        return (
            f'<table:table-cell table:number-rows-spanned="{value.rows}" office:value-type="string">'
            f"<text:p>{value.text}</text:p></table:table-cell>"
        )
    if isinstance(value, int | float):
        return (
            f'<table:table-cell office:value-type="float" office:value="{value}"><text:p>x</text:p></table:table-cell>'
        )
    text = escape(str(value))
    return f'<table:table-cell office:value-type="string"><text:p>{text}</text:p></table:table-cell>'


def xls(rows: Rows) -> bytes:
    """A BIFF8 workbook of texts and numbers in a compound file."""
    sheet = _record(0x0809, struct.pack("<HHHHII", 0x0600, 0x0010, 0, 0, 0, 0))
    width = max(map(len, rows))
    sheet += _record(0x0200, struct.pack("<IIHHH", 0, len(rows), 0, width, 0))
    for place, row in enumerate(rows):
        for column, value in enumerate(row):
            sheet += _xls_cell(place, column, value)
    sheet += _record(0x000A, b"")
    head = _record(0x0809, struct.pack("<HHHHII", 0x0600, 0x0005, 0, 0, 0, 0)) + _record(
        0x0042, struct.pack("<H", 1200)
    )
    offset = len(head) + 4 + 8 + len("Lines") + 4
    head += _record(0x0085, struct.pack("<IBBBB", offset, 0, 0, len("Lines"), 0) + b"Lines") + _record(0x000A, b"")
    assert len(head) == offset
    return _compound(head + sheet)


def _record(kind: int, body: bytes) -> bytes:
    return struct.pack("<HH", kind, len(body)) + body


def _xls_cell(row: int, column: int, value: Any) -> bytes:
    if value is None or value == "":
        return b""
    place = struct.pack("<HHH", row, column, 0)
    if isinstance(value, int | float):
        return _record(0x0203, place + struct.pack("<d", value))
    text = str(value)
    return _record(0x0204, place + struct.pack("<HB", len(text.encode("utf-16-le")) // 2, 1) + text.encode("utf-16-le"))


_FREE, _END, _FAT, _NONE = 0xFFFFFFFF, 0xFFFFFFFE, 0xFFFFFFFD, 0xFFFFFFFF


def _compound(stream: bytes) -> bytes:
    """One stream called Workbook: sector 0 is the allocation table, 1 the directory, the rest the stream."""
    stream = stream.ljust(4096, b"\0")  # shorter streams would live in a mini stream
    stream = stream.ljust(-(-len(stream) // 512) * 512, b"\0")
    count = len(stream) // 512
    assert count < 126
    table = [_FAT, _END, *range(3, 2 + count), _END]
    header = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 16 + struct.pack("<HHHHH6x", 0x3E, 3, 0xFFFE, 9, 6)
    header += struct.pack("<IIIIIIIII", 0, 1, 1, 0, 4096, _END, 0, _END, 0)
    header += struct.pack("<109I", 0, *[_FREE] * 108)
    directory = _entry("Root Entry", 5, 1, _END, 0) + _entry("Workbook", 2, _NONE, 2, len(stream)) + b"\0" * 256
    return header + struct.pack("<128I", *table, *[_FREE] * (128 - len(table))) + directory + stream


def _entry(name: str, kind: int, child: int, start: int, size: int) -> bytes:
    written = name.encode("utf-16-le") + b"\0\0"
    head = written.ljust(64, b"\0") + struct.pack("<HBB", len(written), kind, 1)
    return head + struct.pack("<III", _NONE, _NONE, child) + b"\0" * 36 + struct.pack("<IQ", start, size)
