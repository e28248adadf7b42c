"""Does a column of its own say in what each quantity is counted?  "CS" beside 4 is read as "4 CS".

Common practice, no source.
"""

import re
from dataclasses import replace

from models.intake.cells.quantities import says_packs
from models.intake.grid import Cell, folded, is_blank, written_cell
from models.intake.many import distinct
from models.intake.shape.table import Table

COUNTED_IN = "counted_in"  # internal column: the unit of measure
_FIRST_WORD = re.compile(r"[^\W\d_]+")


def with_units_beside(table: Table) -> Table:
    """The table with its unit of measure in each cell of its quantities, where any row is counted in packs.

    Parameters
    ----------
    table : Table
        The file.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> from models.intake.shape.table import read_table
    >>> table = read_table(b"Item,Qty,UOM\\nMug,4,CS\\nJug,3,EA\\nPan,,EA\\n", "m.csv", MANIFEST, {})
    >>> with_units_beside(table).columns["quantity"]
    ['4 CS', '3 EA', '']
    """
    if COUNTED_IN not in table.columns or "quantity" not in table.columns:
        return table
    measures = {cell: _first_word(cell) for cell in distinct(table.columns[COUNTED_IN])}
    if not any(says_packs(f"1 {word}") for word in measures.values()):
        return table
    pairs = zip(table.columns["quantity"], table.columns[COUNTED_IN], strict=True)
    counted = [_beside(count, measures[measure]) for count, measure in pairs]
    return replace(table, columns={**table.columns, "quantity": counted})


def _first_word(cell: Cell) -> str:
    found = _FIRST_WORD.search(folded(cell)) if isinstance(cell, str) else None
    return found[0] if found else ""


def _beside(count: Cell, word: str) -> Cell:
    text = written_cell(count)
    if not word or is_blank(text) or text[-1].isalpha():  # a cell that says itself in what it counts
        return count
    return f"{text} {word}"
