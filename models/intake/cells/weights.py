"""How many kilograms does a cell say?  The unit stands in the cell or in the header; without one nothing is read."""

import math
import re
from collections.abc import Sequence
from functools import partial

from models.intake.cells.number_texts import bare, decimal_of
from models.intake.cells.reading import BLANK, Reading, Readings, read_column
from models.intake.grid import Cell, folded, is_blank

# The pound is .45359237 kg exactly (international yard and pound agreement, 1959); 16 ounces are one.
_KG_A_POUND = 0.45359237
_UNITS: dict[str, float] = {
    **dict.fromkeys(("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms"), 1.0),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds", "#"), _KG_A_POUND),
    **dict.fromkeys(("oz", "ounce", "ounces"), _KG_A_POUND / 16),
    **dict.fromkeys(("g", "gr", "gram", "grams", "gramm"), 0.001),
}
_HEAVIEST = 100_000.0  # kg: more than any truck carries; common practice, no source
_CELL = re.compile(r"(?P<number>[\d.,' ]+?)\s*(?P<unit>#|[a-z]+)?\.?", re.IGNORECASE)
_POUNDS_AND_OUNCES = re.compile(
    r"(?P<pounds>\d+)\s*(?:#|lbs?|pounds?)\.?[\s,&]*(?:and\s+)?(?P<ounces>\d+(?:[.,]\d+)?)\s*(?:oz|ounces?)\.?",
    re.IGNORECASE,
)


def unit_of(header: str) -> float | None:
    """Kilograms of the unit a header names, None if it names none or several.

    Examples
    --------
    >>> unit_of("Weight (lbs)"), unit_of("weight_kg"), unit_of("Weight"), unit_of("Weight lb/oz")
    (0.45359237, 1.0, None, None)
    """
    named = {_UNITS[word] for word in re.split(r"[\W_]+", header.lower()) if word in _UNITS}
    return named.pop() if len(named) == 1 else None


def read_weights(cells: Sequence[Cell], header: str, comma: bool) -> Readings[float]:
    """Kilograms of each cell, NaN for blank.

    Parameters
    ----------
    cells : sequence of Cell
        The column.
    header : str
        Its header.
    comma : bool
        The file writes a decimal comma.

    Examples
    --------
    >>> cells = ["2 lb", "5 lb 3 oz", "500 g", "1.5"]
    >>> [round(reading.value, 3) for reading in read_weights(cells, "Weight", comma=False)]
    [0.907, 2.353, 0.5, nan]
    """
    return read_column(cells, partial(_read, unit=unit_of(header), comma=comma))


def _read(cell: Cell, unit: float | None, comma: bool) -> Reading[float]:
    text = folded(cell)
    if is_blank(text):
        return Reading(math.nan)
    if both := _POUNDS_AND_OUNCES.fullmatch(text) if len(text) < 40 else None:
        return Reading(_KG_A_POUND * (int(both["pounds"]) + float(both["ounces"].replace(",", ".")) / 16))
    found = _CELL.fullmatch(text) if len(text) < 40 else None
    core = bare(found["number"])[0] if found else ""
    number, _ = decimal_of(core, comma and isinstance(cell, str)) if core else (None, False)
    if found is None or number is None:
        return Reading(math.nan, "not a weight", BLANK)
    own = _UNITS.get(found["unit"].lower()) if found["unit"] else unit
    if own is None:
        return Reading(math.nan, "a weight without a unit", BLANK)
    kilograms = float(number) * own
    return Reading(math.nan, "too heavy for one row of goods", BLANK) if kilograms > _HEAVIEST else Reading(kilograms)
