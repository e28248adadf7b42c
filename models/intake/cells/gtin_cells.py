"""Is a cell a GTIN?  Lost zeros come back, UPC-E and ISBN-10 expand; the check digit decides, nothing is guessed.

A check digit is right by luck once in ten times: where most of a column's numbers of one length are wrong, they are
somebody's own numbers, and the few right ones are not believed either.
"""

import datetime as dt
import re
from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import compress

from models.intake.cells.gtin import LENGTHS, digits_of, expanded_upc_e, is_valid, isbn_13, right_check_digits
from models.intake.cells.reading import BLANK, Reading, Readings
from models.intake.grid import Cell, folded, is_blank

_SCIENTIFIC = re.compile(r"\d+(?:[.,]\d+)?e[+]?\d+", re.IGNORECASE)
_ISBN_10 = re.compile(r"[0-9]{9}[0-9X]")
_NAMED = re.compile(r"(?:UPC|EAN|GTIN|ISBN|JAN)(?:-?(?:A|E|8|10|12|13|14)(?=[:# ]))?\s*[:#.]?\s*(?=[0-9])")
_UPC = 12  # digits
_SURE = {11, 12, 13, 14}  # lengths with one meaning: a UPC that lost its zero or any of the long ones
_ROUNDED_ZEROS = 5  # so many zeros at the end: a number that stood in scientific notation with six digits
_LONG = range(9, max(LENGTHS) + 1)
_ENOUGH, _LUCK = 10, 0.3  # so many different numbers of one length, of which fewer than this share are right


def read_gtins(cells: Sequence[Cell]) -> Readings[str]:
    """A valid GTIN or "" for each cell; whatever was written and is none is named.

    Examples
    --------
    >>> readings = read_gtins([36000291452, "3.6E+10", "0 36000 29145 2", "", "SHELF-9"])
    >>> readings.values
    ['036000291452', '', '036000291452', '', '']
    >>> readings[1].doubt
    'digits lost to scientific notation'
    """
    sure = _sure(cells)
    others = [] if all(sure) else [index for index, text in enumerate(sure) if not text]
    plain = {cells[index]: _plain(cells[index]) for index in others}
    long = [text for text in plain.values() if len(text) in _LONG and _is_digits(text)]
    right = set(compress(long, right_check_digits(digits_of(long))))
    known = {cell: _read(cell, text, right) for cell, text in plain.items()}
    if by_luck := _by_luck(cells, sure, known, plain):
        known |= by_luck
        others = [index for index, cell in enumerate(cells) if cell in known]
    values = list(sure) if min(map(len, sure), default=0) >= _UPC else [text.zfill(_UPC) for text in sure]
    for index in others:
        values[index] = known[cells[index]].value
    return Readings(cells, values, {cell: reading for cell, reading in known.items() if reading.doubt})


def _sure(cells: Sequence[Cell]) -> list[str]:
    """The digits of each cell that can be nothing but a GTIN, "" for others: most are sure, and told all together."""
    if set(map(type, cells)) <= {int, str}:
        texts = list(map(str, cells))
    else:
        texts = [str(cell) if type(cell) is int else cell if type(cell) is str else "" for cell in cells]
    if not (_is_digits("".join(texts)) and set(map(len, texts)) <= _SURE):
        texts = [text if len(text) in _SURE and _is_digits(text) else "" for text in texts]
    digits = digits_of(texts)
    sure = right_check_digits(digits) & digits[:, -_ROUNDED_ZEROS:].any(axis=1)
    return (
        texts if sure.all() else [text if is_sure else "" for text, is_sure in zip(texts, sure.tolist(), strict=True)]
    )


def _by_luck(
    cells: Sequence[Cell], sure: Sequence[str], known: Mapping[Cell, Reading[str]], plain: Mapping[Cell, str]
) -> dict[Cell, Reading[str]]:
    """The valid ones of a length at which most are not; `known` and `plain` are of the cells that are not sure."""
    numbers = {cell: text for cell, text in plain.items() if _is_digits(text)}
    wrong = Counter(len(text) for cell, text in numbers.items() if not known[cell].value)
    if not any(count > (1 - _LUCK) * _ENOUGH for count in wrong.values()):
        return {}
    valid = {cell: text for cell, text in numbers.items() if known[cell].value}
    valid |= {cell: text for cell, text in zip(cells, sure, strict=True) if text}
    right = Counter(map(len, valid.values()))
    counts = {length: wrong[length] + right[length] for length in wrong}
    own = {length for length, count in counts.items() if count >= _ENOUGH and right[length] < _LUCK * count}
    doubt = Reading("", "most numbers of this length in the column are no GTINs, so this one may be none", BLANK)
    return {cell: doubt for cell, text in valid.items() if len(text) in own} if own else {}


def _is_digits(text: str) -> bool:
    return text.isascii() and text.isdigit()


def _plain(cell: Cell) -> str:
    if isinstance(cell, str) and _is_digits(cell):
        return cell
    if isinstance(cell, int) and cell >= 0:
        return str(cell)
    if isinstance(cell, dt.date):
        return ""
    text = _NAMED.sub("", folded(cell).strip("'\"`*").upper(), count=1)
    return text.replace(" ", "").replace("-", "").removesuffix(".0")


def _read(cell: Cell, plain: str, right: set[str]) -> Reading[str]:
    """`plain` is the cell without names, spaces and dashes; `right` are the long numbers with a right check digit."""
    if _is_digits(plain):
        return _digits(plain, right)
    if isinstance(cell, dt.date):
        return Reading("", "a date, not a GTIN", BLANK)
    if is_blank(folded(cell).strip("'\"`*")):
        return Reading("")
    if _SCIENTIFIC.fullmatch(plain):
        return Reading("", "digits lost to scientific notation", BLANK)
    if _ISBN_10.fullmatch(plain) and not plain.isdigit():
        return _named(isbn_13(plain), "the check digit is wrong")
    return Reading("", "not a GTIN", BLANK)


def _digits(digits: str, right: set[str]) -> Reading[str]:
    if not digits.strip("0"):
        return Reading("", "zeros are no GTIN", BLANK)
    if len(digits) > max(LENGTHS) or len(digits) < min(LENGTHS) - 1:
        return Reading("", "not the length of a GTIN", BLANK)
    if len(digits) <= 8:
        return _short(digits.zfill(8))
    if digits.endswith("0" * _ROUNDED_ZEROS):
        return Reading("", "digits lost to scientific notation", BLANK)
    if len(digits) == 10 and isbn_13(digits):
        if is_valid(digits.zfill(12)):
            return Reading("", "could be an ISBN or a GTIN without its zeros", BLANK)
        return Reading(isbn_13(digits) or "")
    if digits not in right:
        return Reading("", "the check digit is wrong", BLANK)
    return Reading(digits if len(digits) in LENGTHS else digits.zfill(12))


def _short(eight: str) -> Reading[str]:
    """A GTIN of eight digits never begins with 0; with 1 the number may be either."""
    expanded = expanded_upc_e(eight)
    if expanded and is_valid(eight) and not eight.startswith("0"):
        return Reading("", "could be a UPC-E or a GTIN of eight digits", BLANK)
    return _named(expanded or (eight if is_valid(eight) else None), "the check digit is wrong")


def _named(gtin: str | None, doubt: str) -> Reading[str]:
    return Reading("", doubt, BLANK) if gtin is None else Reading(gtin)
