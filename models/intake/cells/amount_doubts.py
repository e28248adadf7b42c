"""Which amounts cannot be meant as they stand?  More decimals than the currency has, fillers, and "12.345".

The sizes are rules of thumb, common practice, no source.
"""

import math
from collections import Counter
from collections.abc import Mapping, Sequence

import numpy as np

from models.intake.cells.amount_texts import WrittenAmount
from models.intake.cells.number_texts import decimal_sign
from models.intake.cells.reading import BLANK, Reading, Readings
from models.intake.grid import Cell
from models.values.arrays import BoolArray, FloatArray
from models.values.money import minor_digits, written

_FINE = 0.1  # share of a column's amounts with finer decimals from which on it is meant so
_FEW = 3
_WHOLE = 1e-6  # minor units that binary fractions may be off
_FAR, _LARGE = 5e5, 1e8  # times the column's median, and minor units: both together are a filler
_ENOUGH = 3
_POINTED = frozenset({"USD", "GBP", "AUD", "CAD", "NZD", "SGD", "HKD", "INR", "MXN", "PHP", "MYR", "THB", "CNY"})
_UNGROUPED = 1000
_DEAR = 9e7  # minor units below which nines may be a price
_NINES = Reading(math.nan, "a row of nines, which fills a cell and is no price", BLANK)
_FILLER = Reading(math.nan, "too large beside the other amounts to be meant", BLANK)


def in_doubt(cells: Sequence[Cell], readings: Readings[float], currency: str) -> tuple[Readings[float], bool]:
    """Readings with what cannot be meant: single finer amounts are rounded, fillers are blank, both are named.

    Parameters
    ----------
    cells : sequence of Cell
        The column.
    readings : Readings
        Of each cell [minor units].
    currency : str
        ISO 4217.

    Returns
    -------
    tuple
        The readings, and whether the column as a whole is finer than the currency: then nothing is rounded.

    Examples
    --------
    >>> cells = ["12.345", "5"]
    >>> in_doubt(cells, Readings(cells, [1234.5, 500.0], {}), "USD")[0][0].done
    'rounded to 12.34'
    """
    minor = np.array(readings.values, dtype=np.float64)
    known = np.isfinite(minor)
    finer = known & (np.abs(minor - np.rint(minor)) > _WHOLE * np.maximum(1.0, np.abs(minor)))
    fine = bool(finer.sum() >= max(_FEW, _FINE * known.sum()))
    changed: dict[Cell, Reading[float]] = {}
    if not fine:
        changed |= {cells[at]: _rounded(float(minor[at]), currency) for at in np.flatnonzero(finer).tolist()}
    nines = np.flatnonzero(known & (np.abs(minor) > _DEAR)).tolist()
    changed |= {cells[at]: _NINES for at in nines if _all_nines(minor[at], currency)}
    changed |= {cells[at]: _FILLER for at in _fillers(minor, known)}
    if not changed:
        return readings, fine
    return readings.told(changed), fine


def _rounded(minor: float, currency: str) -> Reading[float]:
    digits = minor_digits(currency)
    value = float(np.rint(minor))
    doubt = f"more decimals than the {digits} that {currency} has" if digits else f"{currency} has no decimals"
    return Reading(value, doubt, f"rounded to {written(value, currency)}")


def _all_nines(minor: float, currency: str) -> bool:
    return set(str(int(abs(minor) // 10 ** minor_digits(currency)))) == {"9"}


def _fillers(minor: FloatArray, known: BoolArray) -> list[int]:
    size = np.abs(minor[known & (minor != 0)])
    if len(size) < _ENOUGH or not size.max() > _LARGE:
        return []
    far = max(_LARGE, _FAR * float(np.median(size)))
    beyond: list[int] = np.flatnonzero(known & (np.abs(minor) > far)).tolist()
    return beyond


def open_cells(
    texts: Mapping[Cell, WrittenAmount], column: Counter[str], whole: Counter[str], currency: str, comma_likely: bool
) -> tuple[str, ...]:
    """Some cells of a column that nothing in the file can settle: thousands, or thousandths?

    Parameters
    ----------
    texts : mapping
        The column's different cells.
    column, whole : Counter
        What the column and the whole file show of their decimal sign, from `votes`.
    currency : str
        ISO 4217: where cents follow a point, "1.234" is no usual thousand.
    comma_likely : bool
        The file is of a sort that writes decimal commas.

    Notes
    -----
    Where other amounts of the column show that its sign stands before two decimals, "1.250" (or "1,250" beside "24,00")
    may still be a thousand: nobody writes the zero of 1.25; "12.345" is rounded and named.  Else only three digits
    after a point are doubted: a comma before three digits is a thousand wherever cents have two.
    Numbers from 1,000 on without any sign speak against a sign for thousands.
    """
    for sign, other in ((".", ","), (",", ".")):
        if column[sign] and not column[other] and column[f"?{sign}"] and minor_digits(currency) == 2:
            cores = [text.core for text in texts.values() if text.core]
            finer = any(decimal_sign(core) == sign and len(core.rpartition(sign)[2]) > 2 for core in cores)
            doubted = (core for core in cores if decimal_sign(core) == f"?{sign}" and core.endswith("0"))
            return () if finer else tuple(doubted)
    clear = column["."] or column[","] or whole["."] != whole[","]
    if clear or not column["?."] or minor_digits(currency) != 2:
        return ()
    plain = any(text.core.isdigit() and int(text.core) >= _UNGROUPED for text in texts.values())
    if not plain and (comma_likely or currency not in _POINTED):
        return ()
    return tuple(text.core for text in texts.values() if text.core and decimal_sign(text.core) == "?.")
