"""What does a column hold, at a glance?  Shares of its first cells that have the shape of this or that."""

import datetime as dt
import re
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from models.intake.cells.conditions import condition_of
from models.intake.cells.dates import Order, read_dates
from models.intake.cells.gtin import is_valid
from models.intake.cells.number_texts import bare, decimal_of
from models.intake.cells.regions import is_region
from models.intake.cells.state_words import is_answer_word, is_state
from models.intake.grid import Cell, folded, is_blank, written_cell

LOOKED_AT = 120  # cells of a column that are not blank
_WORD = re.compile(r"[^\W\d_]{3}")
_LONG_WORD = re.compile(r"[^\W\d_]{5}")
_SIGN = "[$€£¥₹₩₺₽₪₫₱₴฿円]"
_MONEY = re.compile(
    rf"(?:[^\W\d_]{{1,3}}|{_SIGN})?[-(]?\s*(?:\d[\d.,'’ ]*)?(?:[.,]\d{{2}}|(?<=\d)[.,][-–—]{{1,2}})\)?\s*"
    rf"(?:[^\W\d_]{{1,3}}|{_SIGN})?|{_SIGN}\s*\d.*|\d[\d.,'’ ]*{_SIGN}"
)
_MAIL = re.compile(r"\S+@\S+\.\w+")
_DIALLED = re.compile(r"(?=.*[\s()+-])[\d\s().+-]+")  # digits with signs between; a barcode has none
_FEWEST_DIALLED = 9  # digits; a date has eight
_LINK = re.compile(r"(?:https?://|www\.)\S+", re.IGNORECASE)
_PLAIN_NUMBER = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")
_BESIDE_NUMBER = re.compile(r"[^\d.,'()\s−–-]")
_CENTS_AFTER_COMMA = re.compile(r",\d{1,2}$")
_LONGEST_NUMBER = 40  # characters
_SHORT_WORDS = 5  # words of a wording; more is prose
_MOST_UNITS = 9_999
_A_FEW = 2
_SERIALS = (20_000, 80_000)  # spreadsheet days of 1954 to 2119


@dataclass(frozen=True)
class Glance:
    """Shares 0 to 1 of `filled` cells; `words` is the mean number of words of a cell; `numbers` those of the column."""

    filled: int
    number: float
    cents: float
    units: float
    date: float
    text: float
    words: float
    gtin: float
    condition: float
    region: float
    state: float
    link: float
    distinct: float
    rising: bool  # each whole number one more than the one before: they count the rows
    numbers: tuple[float | None, ...]  # of the first sampled rows, None where there is none
    texts: tuple[str, ...]  # of every sampled row

    @property
    def content(self) -> tuple[object, ...]:
        """What tells whether two columns hold the same: numbers where there are any, however they are written."""
        pairs = zip(self.numbers, self.texts, strict=False)
        return tuple(text if number is None else number for number, text in pairs)


def glance(cells: Sequence[Cell]) -> Glance:
    """Look at a column's sample.

    Examples
    --------
    >>> seen = glance(["New", "Used - good", "", "New"])
    >>> seen.filled, seen.condition, seen.number
    (3, 1.0, 0.0)
    """
    filled = [cell for cell in cells if not (isinstance(cell, str) and is_blank(cell))][:LOOKED_AT]
    counts = Counter(filled)
    shares = {
        name: sum(shape(cell, written_cell(cell)) * count for cell, count in counts.items()) / max(len(filled), 1)
        for name, shape in _SHAPES.items()
    }
    numbers = tuple(quick_number(cell) for cell in cells[:LOOKED_AT])
    known = [number for number in numbers if number is not None]
    rising = len(known) > _A_FEW and known[0] % 1 == 0 and all(after - before == 1 for before, after in pairwise(known))
    distinct = len(counts) / max(len(filled), 1)
    texts = tuple(map(written_cell, cells))
    return Glance(len(filled), **shares, distinct=distinct, rising=rising, numbers=numbers, texts=texts)


def quick_number(cell: Cell) -> float | None:
    """A cell's number as a glance takes it: the decimal sign by the cell alone.

    Examples
    --------
    >>> quick_number("$1,234.50"), quick_number("12,5 EUR"), quick_number("2 EA"), quick_number("abc")
    (1234.5, 12.5, 2.0, None)
    """
    if isinstance(cell, int | float):
        return float(cell)
    if not isinstance(cell, str) or len(cell) > _LONGEST_NUMBER or _LONG_WORD.search(cell):
        return None
    cell = cell if cell.isascii() else folded(cell)
    if _PLAIN_NUMBER.fullmatch(cell):
        return float(cell)
    core, below = bare(_BESIDE_NUMBER.sub("", cell))
    if not core:
        return None
    number, _ = decimal_of(core, comma=bool(_CENTS_AFTER_COMMA.search(core)))
    return None if number is None else float(-number if below else number)


def is_personal(cells: Sequence[Cell]) -> bool:
    """True where most cells are addresses of people: mail, telephone, regions.

    Examples
    --------
    >>> is_personal(["a@b.example", "c@d.example"]), is_personal(["TX", "NY"]), is_personal(["555 010-0199"])
    (True, True, True)
    >>> is_personal(["Mug"]), is_personal(["036000291452"]), is_personal(["2026-05-01"])
    (False, False, False)
    """
    filled = [cell for cell in cells if cell != ""][:LOOKED_AT]
    told = sum(is_region(cell) or _reaches_someone(written_cell(cell)) for cell in filled)
    return told > 0.5 * len(filled)


def _reaches_someone(text: str) -> bool:
    if _MAIL.fullmatch(text):
        return True
    return bool(_DIALLED.fullmatch(text)) and sum(map(str.isdigit, text)) >= _FEWEST_DIALLED


def _number(cell: Cell, text: str) -> bool:
    if isinstance(cell, str):
        return any(map(str.isdigit, text)) and not _LONG_WORD.search(text)
    return not isinstance(cell, dt.date)


def _cents(cell: Cell, text: str) -> bool:
    return (
        bool(_MONEY.fullmatch(text if text.isascii() else folded(text)))
        if isinstance(cell, str)
        else isinstance(cell, float) and cell != int(cell)
    )


def _units(cell: Cell, _: str) -> bool:
    number = quick_number(cell)
    return number is not None and number == int(number) and 0 <= number <= _MOST_UNITS


def _dated(cell: Cell, _: str) -> bool:
    if isinstance(cell, str):
        return read_dates([cell], Order.DAY)[0].value is not None
    return isinstance(cell, dt.date) or (_SERIALS[0] <= cell <= _SERIALS[1] and cell == int(cell))


def _texts(cell: Cell, text: str) -> bool:
    return isinstance(cell, str) and bool(_WORD.search(text))


def _words(_: Cell, text: str) -> int:
    return len(text.split())


def _gtin(_: Cell, text: str) -> bool:
    digits = text.replace("-", "").replace(" ", "")
    return is_valid(digits) or (len(digits) == 11 and is_valid("0" + digits))


def _condition(cell: Cell, text: str) -> bool:
    return isinstance(cell, str) and len(text.split()) <= _SHORT_WORDS and condition_of(text) is not None


def _region(cell: Cell, _: str) -> bool:
    return is_region(cell)


def _state(_: Cell, text: str) -> bool:
    return is_state(text) or is_answer_word(text)


def _link(_: Cell, text: str) -> bool:
    return bool(_LINK.match(text))


_SHAPES: Mapping[str, Callable[[Cell, str], float]] = {
    "number": _number, "cents": _cents, "units": _units, "date": _dated, "text": _texts, "words": _words,
    "gtin": _gtin, "condition": _condition, "region": _region, "state": _state, "link": _link,
}  # fmt: skip
