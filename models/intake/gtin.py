"""Is a cell a GTIN?  Lost zeros come back, UPC-E and ISBN-10 expand; the check digit decides, nothing is guessed.

References
----------
GS1 General Specifications, section 7.9 (check digit) and the UPC-E numbers there; ISO 2108 (ISBN).
"""

import datetime as dt
import re
from collections.abc import Sequence

from models.intake.grid import Cell, folded, is_blank
from models.intake.reading import BLANK, Reading, read_column

LENGTHS = (8, 12, 13, 14)

_SCIENTIFIC = re.compile(r"\d+(?:[.,]\d+)?e[+]?\d+", re.IGNORECASE)
_DIGITS = re.compile(r"[0-9]+")
_ISBN_10 = re.compile(r"[0-9]{9}[0-9X]")
_ROUNDED_ZEROS = 6  # so many zeros at the end: a number that once stood in scientific notation


def check_digit(body: str) -> int:
    """The digit that completes a GTIN.

    Parameters
    ----------
    body : str
        All digits but the last.

    Returns
    -------
    int
        0 to 9.

    Notes
    -----
    Weights 3, 1, 3, ... from the right; the digit fills the sum up to a multiple of ten.

    Examples
    --------
    >>> check_digit("629104150021"), check_digit("03600029145")
    (3, 2)
    """
    total = sum(int(digit) * (3 if place % 2 == 0 else 1) for place, digit in enumerate(reversed(body)))
    return -total % 10


def is_valid(gtin: str) -> bool:
    """True for 8, 12, 13 or 14 digits that are not all zero and whose check digit is right.

    Examples
    --------
    >>> is_valid("036000291452"), is_valid("036000291453"), is_valid("00000000")
    (True, False, False)
    """
    if len(gtin) not in LENGTHS or not _DIGITS.fullmatch(gtin) or not gtin.strip("0"):
        return False
    return check_digit(gtin[:-1]) == int(gtin[-1])


def expanded_upc_e(digits: str) -> str | None:
    """The UPC-A of eight UPC-E digits (number system 0 or 1, six, check digit); None if the check digit is wrong.

    Examples
    --------
    >>> expanded_upc_e("04252614"), expanded_upc_e("01234565"), expanded_upc_e("01234560")
    ('042100005264', '012345000065', None)
    """
    if len(digits) != 8 or digits[0] not in "01":
        return None
    system, six, check = digits[0], digits[1:7], digits[7]
    rule = six[5]
    if rule in "012":
        body = six[:2] + rule + "0000" + six[2:5]
    elif rule == "3":
        body = six[:3] + "00000" + six[3:5]
    elif rule == "4":
        body = six[:4] + "00000" + six[4]
    else:
        body = six[:5] + "0000" + rule
    full = system + body + check
    return full if is_valid(full) else None


def isbn_13(isbn_10: str) -> str | None:
    """The 13 digits of an ISBN-10; None if its check sign is wrong.

    Examples
    --------
    >>> isbn_13("0306406152"), isbn_13("080442957X"), isbn_13("0306406153")
    ('9780306406157', '9780804429573', None)
    """
    if not _ISBN_10.fullmatch(isbn_10):
        return None
    weighed = sum((10 - place) * (10 if sign == "X" else int(sign)) for place, sign in enumerate(isbn_10))
    body = "978" + isbn_10[:9]
    return f"{body}{check_digit(body)}" if weighed % 11 == 0 else None


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
    return read_column(cells, _read)


def _read(cell: Cell) -> Reading[str]:
    if isinstance(cell, dt.date):
        return Reading("", "a date, not a GTIN", BLANK)
    text = folded(cell).strip("'\"").upper()
    if is_blank(text):
        return Reading("")
    if _SCIENTIFIC.fullmatch(text.replace(" ", "")):
        return Reading("", "digits lost to scientific notation", BLANK)
    plain = text.replace(" ", "").replace("-", "").removesuffix(".0")
    if _ISBN_10.fullmatch(plain) and not plain.isdigit():
        return _named(isbn_13(plain), "the check digit is wrong")
    if not _DIGITS.fullmatch(plain):
        return Reading("", "not a GTIN", BLANK)
    return _digits(plain)


def _digits(digits: str) -> Reading[str]:
    if not digits.strip("0"):
        return Reading("", "zeros are no GTIN", BLANK)
    if len(digits) > max(LENGTHS) or len(digits) < min(LENGTHS) - 1:
        return Reading("", "not the length of a GTIN", BLANK)
    if len(digits) > 8 and digits.endswith("0" * _ROUNDED_ZEROS):
        return Reading("", "digits lost to scientific notation", BLANK)
    if len(digits) <= 8:
        eight = digits.zfill(8)
        return _named(expanded_upc_e(eight) or (eight if is_valid(eight) else None), "the check digit is wrong")
    if len(digits) == 10 and isbn_13(digits):
        if is_valid(digits.zfill(12)):
            return Reading("", "could be an ISBN or a GTIN without its zeros", BLANK)
        return Reading(isbn_13(digits) or "")
    padded = digits if len(digits) in LENGTHS else digits.zfill(12)
    return _named(padded if is_valid(padded) else None, "the check digit is wrong")


def _named(gtin: str | None, doubt: str) -> Reading[str]:
    return Reading("", doubt, BLANK) if gtin is None else Reading(gtin)
