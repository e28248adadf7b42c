"""What is written in a money cell, before anyone knows its column's decimal sign?  Digits, sign, currency mark."""

import datetime as dt
import re
from typing import NamedTuple

from models.intake.cells.currencies import amount_without_marks, contradict, marks_in, surest
from models.intake.cells.number_texts import bare
from models.intake.cells.tax_words import tax_inside, without_tax_words
from models.intake.grid import Cell, folded, is_blank

_USUAL = re.compile(r"(-?)\s?([$€£]?)\s?(-?)([0-9][0-9.,]*)")
_EACH = re.compile(r"\s*(/|per)?\s*\b(each|ea|unit|pc|stück|stk)\b\.?\s*$|\s*\*+$", re.IGNORECASE)
_COUNT = re.compile(r"\d+\s*(?:each|ea|units?|pc|stück|stk)\.?", re.IGNORECASE)  # "3 EA" is no price, "3.00 EA" is
_LONGEST_TEXT = 60  # characters; longer is prose


class WrittenAmount(NamedTuple):
    """`core` is digits, points and commas, "" without a number; `blank` for nothing and marks of absence.

    An amount that is marked as two currencies at once is no number.
    """

    core: str
    below_zero: bool = False
    mark: str = ""
    blank: bool = False
    taxed: bool = False  # words beside the number say that a tax is in it
    counts: bool = False  # units, not money


def written_amount(cell: Cell) -> WrittenAmount:
    """The parts of a money cell that is not a typed number.

    Examples
    --------
    >>> written_amount("($1,234.50)")
    WrittenAmount(core='1,234.50', below_zero=True, mark='$', blank=False, taxed=False, counts=False)
    >>> written_amount("-").blank, written_amount("free").core, written_amount("12 EUR inc. VAT").taxed
    (True, '', True)
    >>> written_amount("US $12.00").mark, written_amount("$12.00 AUD").mark, written_amount("€12.00 USD").core
    ('us$', 'aud', '')
    >>> written_amount("3 EA").counts, written_amount("3.00 EA").counts
    (True, False)
    """
    if isinstance(cell, dt.date):
        return WrittenAmount("")
    usual = _USUAL.fullmatch(cell) if isinstance(cell, str) else None
    if usual:
        before, mark, after, core = usual.groups()
        return WrittenAmount(core, bool(before or after), mark)
    text = folded(cell).strip("'\"")  # marks of text cells
    if len(text) > _LONGEST_TEXT:
        return WrittenAmount("")
    if _COUNT.fullmatch(text):
        return WrittenAmount("", counts=True)
    untaxed = without_tax_words(text)
    without = amount_without_marks(untaxed)
    marks = marks_in(untaxed) if without != untaxed else []
    core, below = bare(_EACH.sub("", without.strip())) if not contradict(marks) else ("", False)
    taxed = bool(core) and tax_inside(text)
    return WrittenAmount(core, below, surest(marks), is_blank(without.strip()), taxed)
