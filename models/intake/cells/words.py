"""What words does a cell say?  What a spreadsheet made of sizes and codes, reading them as dates and numbers, is named.

Common practice, no source.
"""

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from typing import cast

from models.intake.cells.reading import AS_WRITTEN, BLANK, Reading, Readings
from models.intake.grid import Cell, are_plain, is_lost_formula, plain_text, written_cell
from models.intake.many import mostly_distinct
from models.values.problems import Caution

_LOST = re.compile(r"\d(?:[.,]\d+)?E\+?\d{1,3}", re.IGNORECASE)  # 1E5 too: every code from 100000 on may read so
_MONTH = "(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)"
_LIKE_A_DATE = re.compile(rf"\d{{1,2}}-{_MONTH}|{_MONTH}-\d{{1,2}}", re.IGNORECASE)
_DATE_INSIDE = re.compile(rf"(?<![\w-])\d{{1,2}}-{_MONTH}(?![\w-])", re.IGNORECASE)
_BEGINS_WITH_DIGIT = re.compile(r"\n\d")  # of lines
_TOGETHER = 500
_ROUND = re.compile(r"[1-9]\d*0{4,}")  # what 1E5 and 12E4 become
_SIZES = re.compile(r"\b(?:sizes?|grö(?:ß|ss)en?|taille|talla|taglia|maat)\b", re.IGNORECASE)
_TAKEN = "may be a size or number such as 5-10 that a spreadsheet took for a date"


def read_texts(cells: Sequence[Cell], keys: bool) -> Readings[str]:
    """Words of each cell; a spreadsheet's own reading of what was a size or a key is named.

    Parameters
    ----------
    cells : sequence of Cell
        The column.
    keys : bool
        They identify something: a spoiled one is blank, since a wrong one is worse than none.

    Examples
    --------
    >>> read_texts(["A-1", "1.2E+11", "5-Oct"], keys=True).values
    ['A-1', '', '']
    >>> read_texts(["5-Oct"], keys=False)[0].doubt
    'may be a size or number such as 5-10 that a spreadsheet took for a date'
    """
    different = mostly_distinct(cells)
    pieces = [different[start : start + _TOGETHER] for start in range(0, len(different), _TOGETHER)]
    odd = [cell for piece in pieces if not are_plain(piece) for cell in piece]
    changed: dict[Cell, str] = {cell: text for cell in odd if (text := plain_text(cell)) is not cell}
    suspects = changed | {cell: cell for piece in pieces for cell in _maybe_spoiled(piece, keys) if cell not in changed}
    coded = keys and any(_is_round(cell, text) for cell, text in suspects.items()) and _mostly_coded(cells)
    doubts: dict[Cell, Reading[str]] = {}
    for cell, text in suspects.items():
        if isinstance(cell, str) and is_lost_formula(cell):
            doubts[cell] = Reading("", "a formula that has lost its value", BLANK)
        elif why := _spoiled(cell, text, keys, coded):
            doubts[cell] = Reading("", why, BLANK) if keys else Reading(text, why, AS_WRITTEN)
    changed |= {cell: reading.value for cell, reading in doubts.items()}
    if not changed:
        return Readings(cells, cast(list[str], list(cells)), doubts)
    return Readings(cells, [changed[cell] if cell in changed else str(cell) for cell in cells], doubts)


def _maybe_spoiled(cells: Sequence[Cell], keys: bool) -> list[str]:
    """Those texts that may be dates, for their hyphen, have lost digits, for the one they begin with, or a formula."""
    plain = set(map(type, cells)) == {str}
    texts = cast(Sequence[str], cells) if plain else [cell for cell in cells if isinstance(cell, str)]
    lines = "\n".join(("", *texts))
    if not ("-" in lines or "#" in lines or (keys and _BEGINS_WITH_DIGIT.search(lines))):
        return []
    if not keys and "\n#" not in lines:
        return [text for text in texts if "-" in text]
    return [text for text in texts if "-" in text or text.startswith("#") or (keys and text[:1].isdigit())]


def _spoiled(cell: Cell, text: str, keys: bool, coded: bool) -> str:
    if (
        isinstance(cell, dt.date)
        or _LIKE_A_DATE.fullmatch(text)
        or (not keys and "-" in text and _DATE_INSIDE.search(text))
    ):
        return _TAKEN
    if keys and _LOST.fullmatch(text):
        return "digits lost to scientific notation"
    if coded and _is_round(cell, text):
        return "may be a code such as 1E5 that a spreadsheet took for a number"
    return ""


def _is_round(cell: Cell, text: str) -> bool:
    return not isinstance(cell, str) and bool(_ROUND.fullmatch(text))


def _mostly_coded(cells: Sequence[Cell]) -> bool:
    """True where most keys have letters: a bare number among them may once have been one of theirs."""
    filled = [cell for cell in cells if cell != ""]
    lettered = sum(isinstance(cell, str) and any(map(str.isalpha, cell)) for cell in filled)
    return lettered > 0.5 * len(filled)


def size_column_cautions(unread: Mapping[str, Sequence[Cell]]) -> tuple[Caution, ...]:
    """A caution for each column of sizes that is not used and holds dates.

    Parameters
    ----------
    unread : mapping
        {header: first cells} of the columns taken for nothing.

    Examples
    --------
    >>> size_column_cautions({"Size": ["6-8", "5-Oct"], "Colour": ["red", "5-Oct"]})[0].what
    "The column 'Size' holds dates such as 5-Oct: a spreadsheet took sizes such as 5-10 for dates."
    """
    told = []
    for header, cells in unread.items():
        taken = [cell for cell in cells if isinstance(cell, dt.date) or _LIKE_A_DATE.fullmatch(written_cell(cell))]
        if taken and _SIZES.search(header):
            what = f"The column '{header}' holds dates such as {written_cell(taken[0])}: a spreadsheet took sizes"
            told.append(Caution(f"{what} such as 5-10 for dates.", "The sizes are not used here; list by the goods."))
    return tuple(told)
