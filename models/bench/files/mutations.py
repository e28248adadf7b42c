"""How is a clean file spoilt?  In ways that keep its meaning, cell by cell, or byte by byte; each from one seed.

Keeping: titles, the order of columns, the case of headers, blank rows, repeated headers, quotes, delimiter, line ends
and encoding say nothing about the goods.  Cells: one to three cells hold something else.  Bytes: anything goes.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from models.bench.files.sheets import HISTORY, MANIFEST, Sheet, small_sheet
from models.bench.files.writing import Dialect, delimited_file, workbook_file
from models.values.streams import stream

KEEPING, CELLS, BYTES = "keeping", "cells", "bytes"
WAYS = (KEEPING, CELLS, BYTES)
ODD_CELLS = (
    "", "-", "N/A", "?", "abc", "-3", "0", "1e5", "1.5", "#REF!", "12:30", "½", "x" * 300, "99999999999", "1.234,50",
    "1,234.50", "3 EA", "$5.00", "5,00 €", "31/12/2025", "02/03/2026", "5-Oct", "true", "None", "=1+1", "@x", "3.6E+10",
    "\u202e12", "12\n34", 'a"b', "a;b|c", "50%", "(7.00)", "NaN", "inf", "٣", "Grade B", "LOT OF 5 mugs",
)  # fmt: skip
_PIECES = (
    b'"',
    b",",
    b";",
    b"\t",
    b"|",
    b"\r\n",
    b"\n",
    b"\r",
    b"\0",
    b"\xe9",
    b"\xff\xfe",
    b"=",
    b"\x85",
    b"\xc3",
    b"\x1a",
)
_TITLES = ("Orrin Salvage Depot", "12 Harbour Road", "Load 4471")
_BLOCKS = 8  # a byte mutation cuts, doubles or overwrites at most so many places


@dataclass(frozen=True)
class Spoilt:
    """A file, what it was made of, and where each of its rows stands; `changed` are {(row of the sheet, column)}."""

    sheet: Sheet
    way: str
    data: bytes
    filename: str
    clean: bytes
    rows: tuple[int, ...] = ()  # 1-based row in the file of each row of the sheet
    changed: Mapping[tuple[int, int], str] = field(default_factory=dict)


def spoilt(seed: int) -> Spoilt:
    """The mutated file of this seed."""
    rng = stream(seed, "bench mutation")
    sheet = small_sheet((MANIFEST, HISTORY)[seed % 2], seed % 50)
    clean = delimited_file([sheet.header, *sheet.rows])
    makes = {KEEPING: _kept, CELLS: _cells, BYTES: _bytes}
    return makes[WAYS[seed // 2 % 3]](sheet, clean, rng)


def _kept(sheet: Sheet, clean: bytes, rng: np.random.Generator) -> Spoilt:
    order = rng.permutation(len(sheet.header)) if rng.random() < 0.5 else np.arange(len(sheet.header))
    change_case = (str, str.upper, str.lower, str.title)[rng.integers(4)]
    header = [change_case(sheet.header[place]) for place in order]
    above = [[text, *[""] * (len(header) - 1)] for text in _TITLES[: rng.integers(1, 4)]] if rng.random() < 0.2 else []
    rows, places = [*above, header], []
    for row in sheet.rows:
        if rng.random() < 0.1:
            rows.append([""] * len(header) if rng.random() < 0.7 else header)
        rows.append([row[place] for place in order])
        places.append(len(rows))
    if rng.random() < 0.2:
        return Spoilt(sheet, KEEPING, workbook_file(rows), "m.xlsx", clean, tuple(places))
    return Spoilt(sheet, KEEPING, delimited_file(rows, _dialect(rng)), "m.csv", clean, tuple(places))


def _dialect(rng: np.random.Generator) -> Dialect:
    return Dialect(
        delimiter=",;\t|"[rng.integers(4)],
        encoding=("utf-8", "utf-8-sig", "utf-16", "cp1252")[rng.integers(4)],
        end=("\r\n", "\n", "\r")[rng.integers(3)],
        quote_all=bool(rng.random() < 0.3),
        last_end=bool(rng.random() < 0.8),
    )


def _cells(sheet: Sheet, clean: bytes, rng: np.random.Generator) -> Spoilt:
    rows = [list(row) for row in sheet.rows]
    changed = {}
    for _ in range(int(rng.integers(1, 4))):
        place = int(rng.integers(len(rows))), int(rng.integers(len(sheet.header)))
        rows[place[0]][place[1]] = changed[place] = ODD_CELLS[rng.integers(len(ODD_CELLS))]
    table = [list(sheet.header), *rows]
    places = tuple(range(2, len(table) + 1))
    if rng.random() < 0.1:
        return Spoilt(sheet, CELLS, workbook_file(table), "m.xlsx", clean, places, changed)
    dialect = _dialect(rng)  # in UTF-8 every odd cell can be written; bare line feeds would end rows
    dialect = replace(dialect, encoding="utf-8", quote_all=dialect.quote_all or dialect.end == "\r")
    return Spoilt(sheet, CELLS, delimited_file(table, dialect), "m.csv", clean, places, changed)


def _bytes(sheet: Sheet, clean: bytes, rng: np.random.Generator) -> Spoilt:
    raw = bytearray(delimited_file([sheet.header, *sheet.rows], _dialect(rng)))
    for _ in range(int(rng.integers(1, _BLOCKS))):
        place, length = int(rng.integers(len(raw) + 1)), int(rng.integers(0, 40))
        block = bytes(raw[place : place + length])
        choice = rng.integers(4)
        piece = (_PIECES[rng.integers(len(_PIECES))], block * 2, rng.bytes(int(rng.integers(1, 5))), b"")[choice]
        raw[place : place + (length if choice else int(rng.integers(0, 3)))] = piece
    return Spoilt(sheet, BYTES, bytes(raw), "m.csv", clean)
