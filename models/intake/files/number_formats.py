"""Which currency do the numbers of a column show by their format alone?  The styles of XLSX (ECMA-376 Part 1, 18.8).

The formats 5 to 8 and 37 to 44 follow the country of whoever looks, so they say nothing.
"""

import re
from collections.abc import Mapping
from xml.etree import ElementTree

from models.intake.cells.currencies import header_marks
from models.intake.files.sheet_marks import Marks, place_of_letters

_OF_COUNTRY = frozenset({*range(5, 9), *range(37, 45)})
_LOCALE = re.compile(r"\[\$([^\]-]*)(?:-[^\]]*)?\]")  # [$EUR-407] shows EUR
_BRACKETS = re.compile(r"\[[^\]]*\]")  # colours and conditions
_CELL = re.compile(rb"<c\b([^>]*)>")
_PLACE = re.compile(rb'\br="([A-Z]{1,3})\d+"')
_STYLE = re.compile(rb'\bs="(\d+)"')


def currency_styles(styles: bytes) -> dict[int, tuple[str, ...]]:
    """{style of cells: currency signs and codes its numbers show, in lower case} of a workbook's part of styles.

    Examples
    --------
    >>> code = "#,##0.00 [$\u20ac-407]"
    >>> formats = f'<numFmts><numFmt numFmtId="164" formatCode="{code}"/></numFmts>'
    >>> cells = '<cellXfs><xf numFmtId="0"/><xf numFmtId="164"/></cellXfs>'
    >>> currency_styles(f"<styleSheet>{formats}{cells}</styleSheet>".encode())
    {1: ('\u20ac',)}
    """
    root = ElementTree.fromstring(styles)  # noqa: S314 - size-checked, confined
    shown = {
        one.get("numFmtId", ""): tuple(dict.fromkeys(_marks(one.get("formatCode", ""))))
        for one in root.findall("./{*}numFmts/{*}numFmt")
        if int(one.get("numFmtId", "0")) not in _OF_COUNTRY
    }
    cells = enumerate(root.findall("./{*}cellXfs/{*}xf"))
    return {number: shown[one.get("numFmtId", "")] for number, one in cells if shown.get(one.get("numFmtId", ""))}


def _marks(code: str) -> list[str]:
    return header_marks(_BRACKETS.sub(" ", _LOCALE.sub(r" \1 ", code)).replace('"', " ").replace("\\", " "))


def name_formats(piece: bytes, styles: Mapping[int, tuple[str, ...]], marks: Marks) -> None:
    """Tell which columns of some rows show which currency.

    Examples
    --------
    >>> marks = Marks()
    >>> name_formats(b'<row r="2"><c r="C2" s="1"><v>30</v></c></row>', {1: ("eur",)}, marks)
    >>> marks.formats
    {(2, 'eur')}
    """
    for found in _CELL.finditer(piece):
        style, place = _STYLE.search(found[1]), _PLACE.search(found[1])
        if style and place:
            marks.formats.update((place_of_letters(place[1]), mark) for mark in styles.get(int(style[1]), ()))
