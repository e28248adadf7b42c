"""Columns that are not numbers: words, keys, conditions, GTINs, sourcing; each read once and every doubt told."""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import TypeVar

import numpy as np

from models.intake.cells.conditions import read_conditions
from models.intake.cells.grades import given_conditions, grade_questions, with_grades
from models.intake.cells.gtin_cells import read_gtins
from models.intake.cells.reading import Readings
from models.intake.cells.sourcing import BULK, NOT_SAID, SINGLE, read_sourced
from models.intake.cells.words import read_texts
from models.intake.grid import Cell
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import CodeArray, TextArray, texts
from models.values.questions import SOURCED_IS

T = TypeVar("T")

NOTHING_SAID: Mapping[str, str] = {}
_SOURCED: Mapping[str, int] = {"bulk": BULK, "single": SINGLE}
_KEYS = frozenset({"sku", "listing_ref", "order_ref"})
_GOODS = ("description", "title")  # what says what a row is


def text_column(table: Table, name: str, findings: Findings) -> TextArray:
    """One line of words a row, "" for blank; a key that scientific notation has eaten is blank and named.

    Parameters
    ----------
    table : Table
        The file.
    name : str
        Canonical column.
    findings : Findings
        Told of lost keys.
    """
    if name not in table.columns:
        return texts([""] * len(table))
    return texts(_read(table, name, partial(read_texts, keys=name in _KEYS), findings))


def gtin_column(table: Table, findings: Findings) -> TextArray:
    """A valid GTIN or "" a row."""
    return texts(_read(table, "gtin", read_gtins, findings))


def condition_column(table: Table, findings: Findings, given: Mapping[str, str] = NOTHING_SAID) -> CodeArray:
    """Code of each row's condition, -1 unknown; asks what grades mean that nobody has explained.

    Parameters
    ----------
    table : Table
        The file.
    findings : Findings
        Told of wordings that are not known.
    given : mapping
        The seller's mapping, with what grades mean.
    """
    cells, codes = table.cells("condition"), given_conditions(given)
    readings = with_grades(cells, read_conditions(cells), codes)
    findings.name_doubts("condition", cells, readings)
    goods = next((table.cells(name) for name in _GOODS if name in table.columns), [])
    findings.ask(*grade_questions(cells, codes, goods))
    return np.array(readings.values, dtype=np.int8)


def condition_words(table: Table) -> TextArray:
    """What the file itself says of each row's condition, "" for nothing."""
    return texts(read_texts(table.cells("condition"), keys=False).values)


def sourced_column(table: Table, findings: Findings, mapping: Mapping[str, str]) -> CodeArray:
    """1 bulk, 0 single find, -1 unknown, a row; rows that do not say are as the seller said of the file."""
    cells = np.array(_read(table, "sourced", read_sourced, findings), dtype=np.int8)
    usual = _SOURCED.get(mapping.get(SOURCED_IS, ""), NOT_SAID)
    return np.where(cells == NOT_SAID, usual, cells).astype(np.int8)


def _read(table: Table, name: str, read: Callable[[Sequence[Cell]], Readings[T]], findings: Findings) -> list[T]:
    cells = table.cells(name)
    readings = read(cells)
    findings.name_doubts(name, cells, readings)
    return readings.values
