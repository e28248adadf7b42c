"""What does an ODS say of its rows and cells that its reader does not?

OpenDocument 1.3 Part 3: 9.1 and 19.761; currencies and spans are attributes of its cells.
"""

import re
from collections.abc import Mapping
from html import unescape

from models.intake.files.sheet_marks import NO_RESULT, Marks

_TABLE_OR_ROW = re.compile(
    rb'<table:table\b[^>]*?\stable:name="([^"]*)"|<table:table-row\b([^>]*)>|(?<=\s)table:formula="[^"]*"([^>]*)>'
)
_REPEATED = re.compile(rb'table:number-rows-repeated="(\d+)"')
_HIDDEN = re.compile(rb'table:visibility="(?:collapse|filter)"')
_TABLE = re.compile(rb'<table:table\b[^>]*?\stable:name="([^"]*)"')
_CLOSED_GROUP = re.compile(rb'<table:table-row-group\b[^>]*?\stable:display="false"')  # hides rows unmarked
_TABLE_OR_CELLS = re.compile(
    rb'<table:table\b[^>]*?\stable:name="([^"]*)"|<table:table-row\b([^>]*)(?:/>|(?<!/)>(.*?)</table:table-row>)',
    re.DOTALL,
)
_CELL = re.compile(rb"<table:(?:covered-)?table-cell\b([^>]*)>")
_COLUMNS_REPEATED = re.compile(rb'table:number-columns-repeated="(\d+)"')
_SPANS_ROWS = re.compile(rb'table:number-rows-spanned="(?!1")(\d+)"')
_SPANS_COLUMNS = re.compile(rb'table:number-columns-spanned="(\d+)"')
_CURRENCY = re.compile(rb'office:currency="([A-Z]{3})"')
_CURRENCY_ROWS = 300  # the currency of a column shows in its first rows
_ROWS_COUNTED = 2_000_000  # repeats may claim more than any sheet holds


def ods_marks(content: bytes) -> dict[str, Marks] | None:
    """{name of a sheet: its marks}; None where closed groups hide rows that nothing marks.

    Parameters
    ----------
    content : bytes
        The part `content.xml`.

    Examples
    --------
    >>> cells = b'<table:table-cell office:value-type="currency" office:currency="EUR" office:value="3"/>'
    >>> row = b"<table:table-row><table:table-cell/>" + cells + b"</table:table-row>"
    >>> ods_marks(b'<table:table table:name="Goods">' + row + b"</table:table>")["Goods"].formats
    {(1, 'eur')}
    """
    if _CLOSED_GROUP.search(content):
        return None
    sheets = {_name(found): Marks() for found in _TABLE.findall(content)}
    if _HIDDEN.search(content) or b"table:formula=" in content:
        _rows(content, sheets)
    if b"office:currency=" in content or _SPANS_ROWS.search(content):
        _cells(content, sheets)
    return sheets


def _name(written: bytes) -> str:
    return unescape(written.decode("utf-8", "replace"))


def _rows(content: bytes, sheets: Mapping[str, Marks]) -> None:
    marks, row, after = Marks(), 0, 1
    for found in _TABLE_OR_ROW.finditer(content):
        if found[1] is not None:
            marks = sheets[_name(found[1])]
            row, after = 0, 1
        elif found[2] is not None:
            row, after = after, after + _times(_REPEATED, found[2])
            if _HIDDEN.search(found[2]):
                marks.hidden_rows.update(range(row, min(after, _ROWS_COUNTED)))
        elif b"office:value-type=" not in found[3]:
            marks.add(row, None, "", NO_RESULT)


def _cells(content: bytes, sheets: Mapping[str, Marks]) -> None:
    marks, row = Marks(), 0
    for found in _TABLE_OR_CELLS.finditer(content):
        if found[1] is not None:
            marks, row = sheets[_name(found[1])], 0
            continue
        cells = found[3] or b""
        if (row < _CURRENCY_ROWS and b"office:currency=" in cells) or _SPANS_ROWS.search(cells):
            _cells_of(cells, row, marks)
        row += _times(_REPEATED, found[2])


def _cells_of(cells: bytes, row: int, marks: Marks) -> None:
    place = 0
    for cell in _CELL.finditer(cells):
        if currency := _CURRENCY.search(cell[1]):
            marks.formats.add((place, currency[1].decode().lower()))
        if _SPANS_ROWS.search(cell[1]):
            below, beside = _times(_SPANS_ROWS, cell[1]) - 1, _times(_SPANS_COLUMNS, cell[1]) - 1
            marks.merged.append((row, place, row + below, place + beside))
        place += _times(_COLUMNS_REPEATED, cell[1])


def _times(attribute: re.Pattern[bytes], said: bytes) -> int:
    found = attribute.search(said)
    return min(int(found[1]), _ROWS_COUNTED) if found else 1
