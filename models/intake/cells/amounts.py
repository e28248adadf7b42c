"""What amount of money does a cell say?  "$1,234.50", "1.234,50 EUR", "1 234,50", "(12.00)", "-".

Amounts arrive in major units and leave in minor units, not rounded.  No amount is ever converted.
"""

import math
import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from models.intake.cells.amount_doubts import in_doubt, open_cells
from models.intake.cells.amount_texts import WrittenAmount, written_amount
from models.intake.cells.number_texts import decimal_of, votes, writes_comma
from models.intake.cells.reading import BLANK, Reading, read_column, values_of
from models.intake.grid import Cell
from models.values.arrays import FloatArray
from models.values.money import minor_digits, to_minor

_NOTHING = Reading(math.nan)
_A_COUNT = Reading(math.nan, "a count of units, not an amount of money", BLANK)
_ENOUGH_CELLS = 2000  # to tell a file's decimal sign
_USUAL, _CENTS = re.compile(r"[0-9]{1,12}\.[0-9]{2}"), 2  # most cells, read without ceremony
_NOISE = 1e-12  # share of an amount that binary fractions may be off
_LARGEST_MINOR = 5e11  # the next whole row of nines is a filler, not a price; common practice, no source


@dataclass(frozen=True)
class Amounts:
    """One column of money: minor units with NaN for blank, each cell's doubts, and its currency mark ("" for none)."""

    minor: FloatArray
    readings: list[Reading[float]]
    marks: list[str]
    unreadable: list[bool]  # something was written that is no amount
    taxed: bool = False  # a cell says that a tax is in it
    finer: bool = False  # most have more decimals than the currency; they are not rounded
    unsettled: tuple[str, ...] = ()  # cells such as "12.345" that may be twelve or twelve thousand


def read_amounts(
    columns: Mapping[str, Sequence[Cell]], currency: str, comma_likely: bool, comma_said: bool | None = None
) -> dict[str, Amounts]:
    """All money columns of a file, which vote together where one alone cannot tell its decimal sign.

    Parameters
    ----------
    columns : mapping
        {canonical: cells}.
    currency : str
        ISO 4217 code, for the minor digits.
    comma_likely : bool
        Take the comma for the decimal sign where nothing tells.
    comma_said : bool or None
        What the seller says of columns that leave it open.

    Returns
    -------
    dict
        {canonical: Amounts}.

    Examples
    --------
    >>> read = read_amounts({"cost": ["1.234,50 EUR", "(2,00)", "-", "free"]}, "EUR", False)["cost"]
    >>> read.minor, read.readings[3].doubt
    (array([123450.,   -200.,     nan,     nan]), 'not an amount of money')
    """
    texts = {name: _texts(cells) for name, cells in columns.items()}
    polls = {name: votes(text.core for text in written.values()) for name, written in texts.items()}
    whole = sum(polls.values(), Counter[str]())
    digits = minor_digits(currency)
    read = {}
    for name, cells in columns.items():
        unsettled = open_cells(texts[name], polls[name], whole, currency, comma_likely)
        comma = writes_comma(polls[name], whole, digits, comma_likely)
        comma = comma_said if unsettled and comma_said is not None else comma
        read[name] = replace(_amounts(cells, texts[name], currency, comma), unsettled=unsettled)
    return read


def file_writes_comma(columns: Mapping[str, Sequence[Cell]], comma_likely: bool) -> bool:
    """The decimal sign of a file's money, for columns of plain numbers that cannot tell.

    Examples
    --------
    >>> file_writes_comma({"cost": ["1,50"]}, False)
    True
    """
    counted = votes(text.core for cells in columns.values() for text in _texts(cells[:_ENOUGH_CELLS]).values())
    return counted[","] > counted["."] if counted[","] != counted["."] else comma_likely


def _texts(cells: Sequence[Cell]) -> dict[Cell, WrittenAmount]:
    return {cell: written_amount(cell) for cell in dict.fromkeys(cells) if not isinstance(cell, int | float)}


def _amounts(cells: Sequence[Cell], texts: Mapping[Cell, WrittenAmount], currency: str, comma: bool) -> Amounts:
    digits = minor_digits(currency)

    def read(cell: Cell) -> Reading[float]:
        if isinstance(cell, int | float):
            return _plausible(_typed(cell, digits, currency))
        return _read(texts[cell], currency, comma, digits)

    readings, finer = in_doubt(cells, read_column(cells, read), currency)
    unreadable = [done == BLANK for _, _, done in readings]
    minor = np.array(values_of(readings), dtype=np.float64)
    marked = {cell: text.mark for cell, text in texts.items() if text.mark}
    marks = [marked.get(cell, "") for cell in cells] if marked else [""] * len(cells)
    return Amounts(minor, readings, marks, unreadable, any(text.taxed for text in texts.values()), finer)


def _typed(cell: float, digits: int, currency: str) -> float:
    """A typed number's minor units: nearly always whole, else exactly what its digits say."""
    if not abs(cell) <= _LARGEST_MINOR:
        return math.inf
    scaled = cell * 10**digits
    whole = round(scaled)
    return float(whole) if abs(scaled - whole) <= _NOISE * max(1.0, abs(scaled)) else to_minor(cell, currency)


def _read(text: WrittenAmount, currency: str, comma: bool, digits: int) -> Reading[float]:
    if text.blank or text.counts:
        return _A_COUNT if text.counts else _NOTHING
    if not comma and digits == _CENTS and _USUAL.fullmatch(text.core):
        minor = float(text.core.replace(".", ""))
        return _plausible(-minor if text.below_zero else minor)
    amount, contradicts = decimal_of(text.core, comma) if text.core else (None, False)
    if amount is None:
        return Reading(math.nan, "not an amount of money", BLANK)
    reading = _plausible(to_minor(-amount if text.below_zero else amount, currency))
    if contradicts and not reading.doubt:
        used, usual = ("point", "comma") if comma else ("comma", "point")
        doubt = f"written with a decimal {used} where the column has a decimal {usual}"
        return Reading(reading.value, doubt, "read as written")
    return reading


def _plausible(minor: float) -> Reading[float]:
    if abs(minor) > _LARGEST_MINOR:
        return Reading(math.nan, "too large to be an amount of money", BLANK)
    return Reading(minor)
