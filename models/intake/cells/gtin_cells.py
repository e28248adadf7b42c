"""Is a cell a GTIN?  Lost zeros come back, UPC-E and ISBN-10 expand; the check digit decides, nothing is guessed.

A check digit is right by luck once in ten times: where most of a column's numbers of one length are wrong, they are
somebody's own numbers, and the few right ones are not believed either.
"""

import datetime as dt
import re
from collections import Counter
from collections.abc import Mapping, Sequence

from models.intake.cells.gtin import LENGTHS, expanded_upc_e, is_valid, isbn_13, with_right_check_digit
from models.intake.cells.reading import BLANK, Reading
from models.intake.grid import Cell, folded, is_blank

_SCIENTIFIC = re.compile(r"\d+(?:[.,]\d+)?e[+]?\d+", re.IGNORECASE)
_DIGITS = re.compile(r"[0-9]+")
_ISBN_10 = re.compile(r"[0-9]{9}[0-9X]")
_NAMED = re.compile(r"(?:UPC|EAN|GTIN|ISBN|JAN)(?:-?(?:A|E|8|10|12|13|14)(?=[:# ]))?\s*[:#.]?\s*(?=[0-9])")
_ROUNDED_ZEROS = 5  # so many zeros at the end: a number that stood in scientific notation with six digits
_LONG = range(9, max(LENGTHS) + 1)
_ENOUGH, _LUCK = 10, 0.3  # so many different numbers of one length, of which fewer than this share are right


def read_gtins(cells: Sequence[Cell]) -> list[Reading[str]]:
    """A valid GTIN or "" for each cell; whatever was written and is none is named.

    Examples
    --------
    >>> readings = read_gtins([36000291452, "3.6E+10", "0 36000 29145 2", "", "SHELF-9"])
    >>> [reading.value for reading in readings]
    ['036000291452', '', '036000291452', '', '']
    >>> readings[1].doubt
    'digits lost to scientific notation'
    """
    plain = {cell: _plain(cell) for cell in set(cells)}
    right = with_right_check_digit(text for text in plain.values() if len(text) in _LONG and _DIGITS.fullmatch(text))
    known = {cell: _read(cell, text, right) for cell, text in plain.items()}
    known |= _by_luck(known, plain)
    return [known[cell] for cell in cells]


def _by_luck(known: Mapping[Cell, Reading[str]], plain: Mapping[Cell, str]) -> dict[Cell, Reading[str]]:
    """The valid ones of a length at which most are not."""
    lengths = {cell: len(text) for cell, text in plain.items() if _DIGITS.fullmatch(text)}
    written, valid = Counter(lengths.values()), Counter(length for cell, length in lengths.items() if known[cell].value)
    own = {length for length, count in written.items() if count >= _ENOUGH and valid[length] < _LUCK * count}
    doubt = Reading("", "most numbers of this length in the column are no GTINs, so this one may be none", BLANK)
    return {cell: doubt for cell, length in lengths.items() if length in own and known[cell].value}


def _plain(cell: Cell) -> str:
    if isinstance(cell, str) and _DIGITS.fullmatch(cell):
        return cell
    if isinstance(cell, dt.date):
        return ""
    text = _NAMED.sub("", folded(cell).strip("'\"`*").upper(), count=1)
    return text.replace(" ", "").replace("-", "").removesuffix(".0")


def _read(cell: Cell, plain: str, right: set[str]) -> Reading[str]:
    """`plain` is the cell without names, spaces and dashes; `right` are the long numbers with a right check digit."""
    if _DIGITS.fullmatch(plain):
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
