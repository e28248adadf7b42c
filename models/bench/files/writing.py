"""Rows of text -> the bytes of a file: delimited text, or a workbook of shared texts and numbers."""

import csv
import io
import re
import zipfile
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape

_NUMBER = re.compile(r"(?:0|[1-9][0-9]{0,14})(?:\.[0-9]+)?")
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006/"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_TYPES = "application/vnd.openxmlformats-officedocument.spreadsheetml"
_PARTS = {
    "[Content_Types].xml": f'<Types xmlns="{_PACKAGE}content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    f'<Override PartName="/xl/workbook.xml" ContentType="{_TYPES}.sheet.main+xml"/>'
    f'<Override PartName="/xl/worksheets/sheet1.xml" ContentType="{_TYPES}.worksheet+xml"/>'
    f'<Override PartName="/xl/sharedStrings.xml" ContentType="{_TYPES}.sharedStrings+xml"/></Types>',
    "_rels/.rels": f'<Relationships xmlns="{_PACKAGE}relationships"><Relationship Id="rId1" '
    f'Type="{_OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
    "xl/workbook.xml": f'<workbook xmlns="{_MAIN}" xmlns:r="{_OFFICE}"><sheets>'
    '<sheet name="Lines" sheetId="1" r:id="rId1"/></sheets></workbook>',
    "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{_PACKAGE}relationships"><Relationship Id="rId1" '
    f'Type="{_OFFICE}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" '
    f'Type="{_OFFICE}/sharedStrings" Target="sharedStrings.xml"/></Relationships>',
}


@dataclass(frozen=True)
class Dialect:
    """How delimited text is written."""

    delimiter: str = ","
    encoding: str = "utf-8"
    end: str = "\r\n"
    quote_all: bool = False
    last_end: bool = True  # whether the last row ends with a line end too


def delimited_file(rows: Iterable[Sequence[str]], dialect: Dialect = Dialect()) -> bytes:
    """The bytes of a text file; cells with delimiters, quotes or line ends are quoted."""
    text = io.StringIO(newline="")
    write = csv.writer(
        text,
        delimiter=dialect.delimiter,
        lineterminator=dialect.end,
        quoting=csv.QUOTE_ALL if dialect.quote_all else csv.QUOTE_MINIMAL,
    )
    write.writerows(rows)
    written = text.getvalue()
    return (written if dialect.last_end else written.removesuffix(dialect.end)).encode(dialect.encoding, "replace")


def workbook_file(rows: Iterable[Sequence[str]]) -> bytes:
    """The bytes of an XLSX file of one sheet; plain numbers become numbers, as a spreadsheet would have them."""
    texts: dict[str, int] = {}
    body = "".join(
        f'<row r="{number}">{"".join(_cell(cell, place, number, texts) for place, cell in enumerate(row))}</row>'
        for number, row in enumerate(rows, start=1)
    )
    shared = "".join(f'<si><t xml:space="preserve">{escape(_CONTROL.sub("", text))}</t></si>' for text in texts)
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, part in _PARTS.items():
            archive.writestr(name, _HEAD + part)
        archive.writestr(
            "xl/worksheets/sheet1.xml", f'{_HEAD}<worksheet xmlns="{_MAIN}"><sheetData>{body}</sheetData></worksheet>'
        )
        archive.writestr("xl/sharedStrings.xml", f'{_HEAD}<sst xmlns="{_MAIN}">{shared}</sst>')
    return data.getvalue()


def _cell(text: str, place: int, row: int, texts: dict[str, int]) -> str:
    if not text:
        return ""
    if _NUMBER.fullmatch(text):
        return f'<c r="{_letters(place)}{row}"><v>{text}</v></c>'
    return f'<c r="{_letters(place)}{row}" t="s"><v>{texts.setdefault(text, len(texts))}</v></c>'


def _letters(place: int) -> str:
    return (_letters(place // 26 - 1) if place >= 26 else "") + chr(65 + place % 26)
