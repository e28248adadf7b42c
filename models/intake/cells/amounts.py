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
from models.intake.cells.reading import BLANK, Reading, Readings
from models.intake.grid import Cell
from models.intake.many import distinct
from models.values.arrays import FloatArray
from models.values.money import minor_digits, to_minor

_NOTHING = Reading(math.nan)
_A_COUNT = Reading(math.nan, "a count of units, not an amount of money", BLANK)
_ENOUGH_CELLS = 2000  # to tell a file's decimal sign
_USUAL, _CENTS = re.compile(r"[0-9]{1,12}\.[0-9]{2}"), 2
_NOISE = 1e-12  # share of an amount that binary fractions may be off
_LARGEST_MINOR = 5e11  # the next whole row of nines is a filler, not a price; common practice, no source


@dataclass(frozen=True)
class Amounts:
    """One column of money: minor units with NaN for blank, each cell's doubts, and its currency mark ("" for none)."""

    minor: FloatArray
    readings: Readings[float]
    marks: list[str]
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
        What the seller says of columns that leave it open, and of cells that do so in a column that is settled.

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
    written = {name: _written(cells) for name, cells in columns.items()}
    polls = {name: one.votes() for name, one in written.items()}
    whole = sum(polls.values(), Counter[str]())
    digits = minor_digits(currency)
    read = {}
    for name, cells in columns.items():
        unsettled = open_cells(written[name].texts, polls[name], whole, currency, comma_likely)
        comma = writes_comma(polls[name], whole, digits, comma_likely)
        said = comma if comma_said is None or not unsettled else comma_said
        settled = polls[name]["."] or polls[name][","]
        apart = frozenset(unsettled if settled and said != comma else ())
        column = _amounts(cells, written[name], currency, comma if settled else said, apart)
        read[name] = replace(column, unsettled=unsettled)
    return read


def file_writes_comma(columns: Mapping[str, Sequence[Cell]], comma_likely: bool) -> bool:
    """The decimal sign of a file's money, for columns of plain numbers that cannot tell.

    Examples
    --------
    >>> file_writes_comma({"cost": ["1,50"]}, False)
    True
    """
    polls = (_written(cells[:_ENOUGH_CELLS]).votes() for cells in columns.values())
    counted = sum(polls, Counter[str]())
    return counted[","] > counted["."] if counted[","] != counted["."] else comma_likely


@dataclass(frozen=True)
class _Written:
    """A column's distinct cells: `usual` ones such as "12.50" are most of them, and read without ceremony."""

    usual: list[str]
    numbers: list[float]
    texts: dict[Cell, WrittenAmount]  # all others

    def votes(self) -> Counter[str]:
        """How often each answer of `decimal_sign` is given."""
        return Counter({".": len(self.usual)}) + votes(text.core for text in self.texts.values())


def _written(cells: Sequence[Cell]) -> _Written:
    different = distinct(cells)
    usual = {cell: None for cell in different if isinstance(cell, str) and _USUAL.fullmatch(cell)}
    numbers = [cell for cell in different if isinstance(cell, int | float)]
    if len(usual) + len(numbers) == len(different):
        return _Written(list(usual), numbers, {})
    others = (cell for cell in different if cell not in usual and not isinstance(cell, int | float))
    return _Written(list(usual), numbers, {cell: written_amount(cell) for cell in others})


def _amounts(cells: Sequence[Cell], written: _Written, currency: str, comma: bool, apart: frozenset[str]) -> Amounts:
    """One column; `apart` are numbers of it whose sign is not the decimal one, as the seller says."""
    digits = minor_digits(currency)
    texts = written.texts
    known: dict[Cell, Reading[float]] = {
        cell: _read(text, currency, comma != (text.core in apart), digits) for cell, text in texts.items()
    }
    minor: dict[Cell, float] = dict(zip(written.numbers, _typed(written.numbers, currency), strict=True))
    if digits == _CENTS and not comma:
        minor |= {text: float(text.replace(".", "")) for text in written.usual}
    else:
        known |= {text: _read(WrittenAmount(text), currency, comma, digits) for text in written.usual}
    known |= {cell: _plausible(amount) for cell, amount in minor.items() if not abs(amount) <= _LARGEST_MINOR}
    minor |= {cell: reading.value for cell, reading in known.items()}
    doubts = {cell: reading for cell, reading in known.items() if reading.doubt}
    readings, finer = in_doubt(cells, Readings(cells, list(map(minor.__getitem__, cells)), doubts), currency)
    marked = {cell: text.mark for cell, text in texts.items() if text.mark}
    marks = [marked.get(cell, "") for cell in cells] if marked else [""] * len(cells)
    taxed = any(text.taxed for text in texts.values())
    return Amounts(np.array(readings.values, dtype=np.float64), readings, marks, taxed, finer)


def _typed(numbers: Sequence[float], currency: str) -> list[float]:
    """Typed numbers' minor units: nearly always whole, else exactly what the digits say; inf for what is too large."""
    amounts = np.array([number if abs(number) <= _LARGEST_MINOR else math.nan for number in numbers], dtype=np.float64)
    scaled = amounts * 10.0 ** minor_digits(currency)
    whole = np.rint(scaled) + 0.0  # no zero below zero
    minor: list[float] = np.where(np.isnan(amounts), np.inf, whole).tolist()
    for index in np.flatnonzero(np.abs(scaled - whole) > _NOISE * np.maximum(1.0, np.abs(scaled))).tolist():
        minor[index] = to_minor(numbers[index], currency)
    return minor


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
