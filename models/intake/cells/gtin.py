"""The arithmetic of article numbers: GS1 check digits, UPC-E, ISBN-10.

References
----------
GS1 General Specifications, section 7.9 (check digit) and the UPC-E numbers there; ISO 2108 (ISBN).
"""

import re
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from models.values.arrays import BoolArray

LENGTHS = (8, 12, 13, 14)

_DIGITS = re.compile(r"[0-9]+")
_ISBN_10 = re.compile(r"[0-9]{9}[0-9X]")


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
    total = 3 * sum(map(int, body[-1::-2])) + sum(map(int, body[-2::-2]))
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


def right_check_digits(digits: NDArray[np.uint8]) -> BoolArray:
    """Of many numbers, whether the last digit is the check digit; zeros on the left change nothing.

    Parameters
    ----------
    digits : ndarray of shape (n_numbers, 14)
        From `digits_of`.

    Returns
    -------
    ndarray of shape (n_numbers,)

    Examples
    --------
    >>> right_check_digits(digits_of(["36000291452", "036000291453", "6291041500213"]))
    array([ True, False,  True])
    """
    sums = 3 * digits[:, 0::2].sum(axis=1, dtype=np.int64) + digits[:, 1::2].sum(axis=1, dtype=np.int64)
    right: BoolArray = sums % 10 == 0
    return right


def digits_of(numbers: Sequence[str]) -> NDArray[np.uint8]:
    """Each number's digits, zeros on the left.

    Parameters
    ----------
    numbers : sequence of str
        ASCII digits only, at most 14 of them.

    Returns
    -------
    ndarray of shape (n_numbers, 14)

    Examples
    --------
    >>> digits_of(["36000291452"])
    array([[0, 0, 0, 3, 6, 0, 0, 0, 2, 9, 1, 4, 5, 2]], dtype=uint8)
    """
    longest, lengths = max(LENGTHS), set(map(len, numbers))
    if len(lengths) == 1:  # as most columns have them: zeros are not written to be read again
        (length,) = lengths
        found = np.zeros((len(numbers), longest), dtype=np.uint8)
        written = np.frombuffer("".join(numbers).encode("ascii"), dtype=np.uint8)
        found[:, longest - length :] = written.reshape(len(numbers), length) - ord("0")
        return found
    padded = "".join([number.zfill(longest) for number in numbers]).encode("ascii")
    return np.frombuffer(padded, dtype=np.uint8).reshape(len(numbers), longest) - ord("0")


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
