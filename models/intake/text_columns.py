"""Columns that are not numbers: words, keys, conditions, GTINs, sourcing; each read once and every doubt told."""

import re
from collections.abc import Callable, Sequence
from functools import partial
from typing import TypeVar

import numpy as np

from models.intake.conditions import read_conditions
from models.intake.findings import Findings
from models.intake.grid import Cell, plain_text
from models.intake.gtin import read_gtins
from models.intake.reading import BLANK, Reading, read_column, values_of
from models.intake.sourcing import read_sourced
from models.intake.table import Table
from models.values.arrays import CodeArray, TextArray, texts

T = TypeVar("T")

_LOST = re.compile(r"\d(?:[.,]\d+)?E\+\d+", re.IGNORECASE)
_KEYS = frozenset({"sku", "listing_ref", "order_ref"})


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
    return texts(_read(table, name, partial(read_texts, keys=name in _KEYS), findings))


def gtin_column(table: Table, findings: Findings) -> TextArray:
    """A valid GTIN or "" a row."""
    return texts(_read(table, "gtin", read_gtins, findings))


def condition_column(table: Table, findings: Findings) -> CodeArray:
    """Code of each row's condition, -1 unknown."""
    return np.array(_read(table, "condition", read_conditions, findings), dtype=np.int8)


def sourced_column(table: Table, findings: Findings) -> CodeArray:
    """1 bulk, 0 single find, -1 unknown, a row."""
    return np.array(_read(table, "sourced", read_sourced, findings), dtype=np.int8)


def _read(table: Table, name: str, read: Callable[[Sequence[Cell]], list[Reading[T]]], findings: Findings) -> list[T]:
    cells = table.cells(name)
    readings = read(cells)
    findings.name_doubts(name, cells, readings)
    return values_of(readings)


def read_texts(cells: Sequence[Cell], keys: bool) -> list[Reading[str]]:
    """Words of each cell.

    Examples
    --------
    >>> [reading.value for reading in read_texts(["A-1", "1.2E+11"], keys=True)]
    ['A-1', '']
    """

    def read(cell: Cell) -> Reading[str]:
        text = plain_text(cell)
        if keys and _LOST.fullmatch(text):
            return Reading("", "digits lost to scientific notation", BLANK)
        return Reading(text)

    return read_column(cells, read)
