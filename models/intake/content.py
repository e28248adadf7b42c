"""Do a column's cells look like what its header says?  A glance at a sample: "Item" over numbers is no title."""

import datetime as dt
import re
from collections.abc import Sequence

from models.intake.grid import Cell, is_blank
from models.intake.vocabulary import Content

_WORD = re.compile(r"[^\W\d_]{3}")
_LONG_WORD = re.compile(r"[^\W\d_]{5}")
_DATE = re.compile(r"\d.*[-/. ,].*\d|^\d{5}$|^\d{8}$")
_SERIALS = (20_000, 80_000)  # spreadsheet days of 1954 to 2119
_ENOUGH_SHARE = 0.5


def looks_like(cells: Sequence[Cell], content: Content) -> bool:
    """True if at least half of the cells that are not blank have the shape; nothing to look at is no objection.

    Examples
    --------
    >>> looks_like(["Blue jacket", "Mug"], Content.WORDS), looks_like([1001, 1002], Content.WORDS)
    (True, False)
    >>> looks_like(["$5.00", "-"], Content.NUMBERS), looks_like(["market A"], Content.DATES)
    (True, False)
    """
    if content is Content.ANY:
        return True
    filled = [cell for cell in cells if not (isinstance(cell, str) and is_blank(cell))]
    fitting = sum(1 for cell in filled if _SHAPES[content](cell))
    return not filled or fitting >= _ENOUGH_SHARE * len(filled)


def _words(cell: Cell) -> bool:
    return isinstance(cell, str) and bool(_WORD.search(cell))


def _number(cell: Cell) -> bool:
    if isinstance(cell, str):
        return any(character.isdigit() for character in cell) and not _LONG_WORD.search(cell)
    return not isinstance(cell, dt.date)


def _date(cell: Cell) -> bool:
    if isinstance(cell, str):
        return bool(_DATE.search(cell))
    return isinstance(cell, dt.date) or _SERIALS[0] <= cell <= _SERIALS[1]


_SHAPES = {Content.WORDS: _words, Content.NUMBERS: _number, Content.DATES: _date}
