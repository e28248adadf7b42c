"""How many minutes does a cell say?  Plain numbers are minutes; a clock reading is hours, minutes and seconds."""

import math
import re
from collections.abc import Sequence
from functools import partial

from models.intake.cells.number_texts import bare, decimal_of
from models.intake.cells.reading import BLANK, Reading, Readings, read_column
from models.intake.grid import Cell, folded, is_blank

_CLOCK = re.compile(r"(\d{1,3}):(\d{2}):(\d{2})")
_PLAIN = re.compile(r"(?P<number>[\d.,-]+)\s*(?P<unit>min(?:ute)?s?|m|h|hrs?|hours?)?\.?", re.IGNORECASE)
_MOST_MINUTES = 1_440.0  # a day of listing one unit is another column's number; what learns from it reads no more


def read_minutes(cells: Sequence[Cell], comma: bool) -> Readings[float]:
    """Minutes of each row, NaN for blank.

    Parameters
    ----------
    cells : sequence of Cell
        The column.
    comma : bool
        The file writes a decimal comma.

    Examples
    --------
    >>> [reading.doubt for reading in read_minutes(["0", "9999", "abc"], comma=False)]
    ['no minutes at all', 'too many minutes', 'not a number of minutes']
    >>> [reading.value for reading in read_minutes([12, "7.5 min", "0:12:30", "1 h", "-3", ""], comma=False)]
    [12.0, 7.5, 12.5, 60.0, nan, nan]
    """
    return read_column(cells, partial(_read, comma=comma))


def _read(cell: Cell, comma: bool) -> Reading[float]:
    text = folded(cell)
    if is_blank(text):
        return Reading(math.nan)
    clock, plain = _CLOCK.fullmatch(text), _PLAIN.fullmatch(text[:40])
    core, below = bare(plain["number"]) if plain else ("", False)
    number = decimal_of(core, comma and isinstance(cell, str))[0] if core else None
    if clock:
        minutes = int(clock[1]) * 60 + int(clock[2]) + int(clock[3]) / 60
    elif plain is not None and number is not None and not below:
        minutes = float(number) * (60 if (plain["unit"] or "m").lower().startswith("h") else 1)
    else:
        return Reading(math.nan, "not a number of minutes", BLANK)
    if minutes <= 0:
        return Reading(math.nan, "no minutes at all", BLANK)
    return Reading(minutes) if minutes <= _MOST_MINUTES else Reading(math.nan, "too many minutes", BLANK)
