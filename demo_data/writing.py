"""How do the files get on disk?  The same bytes on every machine: no clock, no packing that depends on a library."""

import io
import zipfile
from pathlib import Path
from xml.sax.saxutils import escape

Cell = str | int | float
_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_OFFICE = "http://schemas.openxmlformats.org"
_PARTS = {
    "[Content_Types].xml": f'<Types xmlns="{_OFFICE}/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="xml" ContentType="application/xml"/>'
    '<Override PartName="/xl/workbook.xml"'
    ' ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>'
    '<Override PartName="/xl/worksheets/sheet1.xml"'
    ' ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>',
    "_rels/.rels": f'<Relationships xmlns="{_OFFICE}/package/2006/relationships"><Relationship Id="rId1"'
    f' Type="{_OFFICE}/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>',
    "xl/workbook.xml": f'<workbook xmlns="{_OFFICE}/spreadsheetml/2006/main"'
    f' xmlns:r="{_OFFICE}/officeDocument/2006/relationships"><sheets><sheet name="Manifest" sheetId="1" r:id="rId1"/>'
    "</sheets></workbook>",
    "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{_OFFICE}/package/2006/relationships"><Relationship Id="rId1"'
    f' Type="{_OFFICE}/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>',
}


def write_csv(path: Path, rows: list[list[Cell]]) -> None:
    """Comma separated as in RFC 4180, with line feeds."""
    path.write_bytes("".join(",".join(_quoted(cell) for cell in row) + "\n" for row in rows).encode())


def _quoted(cell: Cell) -> str:
    text = f"{cell:.2f}" if isinstance(cell, float) else str(cell)
    return '"' + text.replace('"', '""') + '"' if any(sign in text for sign in ',"\n') else text


def write_xlsx(path: Path, rows: list[list[Cell]]) -> None:
    """One sheet; parts are stored unpacked with one fixed date, so the bytes do not depend on the packing library."""
    lines = "".join(_row(number, row) for number, row in enumerate(rows, start=1))
    sheet = f'<worksheet xmlns="{_OFFICE}/spreadsheetml/2006/main"><sheetData>{lines}</sheetData></worksheet>'
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_STORED) as bundle:
        for name, text in (_PARTS | {"xl/worksheets/sheet1.xml": sheet}).items():
            part = zipfile.ZipInfo(name, date_time=(1980, 1, 1, 0, 0, 0))
            part.create_system = 0  # else it tells which system wrote it
            bundle.writestr(part, _HEAD + text)
    path.write_bytes(buffer.getvalue())


def _row(number: int, row: list[Cell]) -> str:
    cells = "".join(_cell(f"{chr(65 + place)}{number}", cell) for place, cell in enumerate(row) if cell != "")
    return f'<row r="{number}">{cells}</row>'


def _cell(name: str, cell: Cell) -> str:
    if isinstance(cell, str):
        return f'<c r="{name}" t="inlineStr"><is><t>{escape(cell)}</t></is></c>'
    return f'<c r="{name}"><v>{cell:g}</v></c>' if isinstance(cell, int) else f'<c r="{name}"><v>{cell:.2f}</v></c>'
