"""How many units does a cell say?  "2 EA", "1,200", "x3".  Blank counts as one and is named; a guess is never made."""

import datetime as dt
import re
from functools import partial

from models.intake.cells.number_texts import bare, decimal_of
from models.intake.cells.reading import ASIDE, Reading, Readings, read_column
from models.intake.cells.word_lists import word_list
from models.intake.grid import Cell, folded, is_blank

MOST_UNITS = 1_000_000  # more in one row is another column's number, such as a barcode
_NINES = frozenset({99_999.0, 999_999.0})
_LONGEST_TEXT = 40  # characters; longer is prose
_UNITS = re.compile(
    r"^(?:qty\.?|quantity|x|×|menge|qté)?\s*[:=]?\s*(?P<number>[^a-z×*]*?)\s*(?P<word>[a-zàäéü.]*|[×*])$", re.IGNORECASE
)
_PIECES = frozenset(
    word_list("""
    *; ea; each; item; items; pair; pairs; pc; pce; pces; pcs; piece; pieces; pieza; piezas; pièces; pr; prs; pz; set;
    sets; st; stk; stueck; stück; u; unit; units; x; ×
""")
)
_PACKS = frozenset(
    word_list("""
    box; boxes; bx; carton; cartons; case; cases; cs; ct; ctn; ctns; dozen; dozens; doz; dz; kartons; lot; lots;
    master; masters; pack; packs; palette; paletten; pallet; pallets; pk; pks; ve
""")
)


def read_quantities(cells: list[Cell], comma: bool) -> Readings[int]:
    """Units of each row; 0 where the row cannot be counted and must be set aside.

    Parameters
    ----------
    cells : list of Cell
        The column.
    comma : bool
        The file writes a decimal comma.

    Examples
    --------
    >>> readings = read_quantities(["2 EA", "1,200", "", "-1", "2.5", "some", 3.0, "4 CS"], comma=False)
    >>> [reading.value for reading in readings]
    [2, 1200, 1, 0, 0, 0, 3, 4]
    >>> readings[2].doubt, readings[4].doubt, readings[7].doubt
    ('no quantity', 'the quantity is not whole', 'the quantity may count packs, not units')
    """
    return read_column(cells, partial(_read, comma=comma))


def says_packs(cell: Cell) -> bool:
    """True for a quantity with a word for cases or packs beside it.

    Examples
    --------
    >>> says_packs("4 CS"), says_packs("4 EA"), says_packs(4)
    (True, False, False)
    """
    return _word_beside(cell) in _PACKS


def says_pieces(cell: Cell) -> bool:
    """True for a quantity with a word for single units beside it.

    Examples
    --------
    >>> says_pieces("4 CS"), says_pieces("4 EA"), says_pieces(4)
    (False, True, False)
    """
    return _word_beside(cell) in _PIECES


def counts_by(text: str) -> bool:
    """True for a word that says in what a quantity is counted.

    Examples
    --------
    >>> counts_by("CS"), counts_by("Each"), counts_by("Blue")
    (True, True, False)
    """
    words = text.casefold().split()
    return bool(words) and words[0].rstrip(".") in _PIECES | _PACKS


def _word_beside(cell: Cell) -> str:
    found = _UNITS.match(folded(cell)) if isinstance(cell, str) and len(cell) <= _LONGEST_TEXT else None
    return found["word"].lower().rstrip(".") if found else ""


def _read(cell: Cell, comma: bool) -> Reading[int]:
    if isinstance(cell, int | float):
        return _counted(float(cell))
    if isinstance(cell, dt.date):
        return _aside("a date where a quantity should be")
    text = folded(cell)
    if is_blank(text):
        return Reading(1, "no quantity", "counted as 1")
    found = _UNITS.match(text) if isinstance(cell, str) and len(text) <= _LONGEST_TEXT else None
    if not found:
        return _aside("the quantity is not a number")
    word = found["word"].lower().rstrip(".")
    core, below = bare(found["number"])
    number, _ = decimal_of(core, comma) if core else (None, False)
    if number is None or (word and word not in _PIECES | _PACKS):
        return _aside("the quantity is not a number")
    counted = _counted(-float(number) if below else float(number))
    if counted.value and word in _PACKS:
        return Reading(counted.value, "the quantity may count packs, not units", "kept as written")
    return counted


def _counted(number: float) -> Reading[int]:
    if number < 0:
        return _aside("the quantity is negative")
    if number == 0:
        return _aside("the quantity is zero")
    if number > MOST_UNITS:
        return _aside("the quantity is too large to be one")
    if number in _NINES:
        return _aside("nines only: a filler, not a quantity")
    if number != int(number):
        return _aside("the quantity is not whole")
    return Reading(int(number))


def _aside(doubt: str) -> Reading[int]:
    return Reading(0, doubt, ASIDE)
