"""A quantity that counts what sold is zero beside what has not: one unit of it is for sale, and that is said."""

import re
from dataclasses import replace

import numpy as np

from models.intake.cells.sourcing import says_unsold
from models.intake.grid import Cell, is_blank, written_cell
from models.intake.sales.state_columns import any_state, denied, state_columns, told
from models.intake.sales.status_words import says_ended, says_not_sold
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table

_ZERO = re.compile(r"0+(?:[.,]0+)?")
_COUNTS = {"left", "sold_count"}  # columns that tell it by themselves


def with_unsold_counted(table: Table, findings: Findings) -> Table:
    """The table with one unit in rows that say by their own words that they have not sold, and count none.

    Parameters
    ----------
    table : Table
        The file as it stands.
    findings : Findings
        Told of every such row.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import HISTORY
    >>> from models.intake.shape.table import read_table
    >>> data = b"Title,Status,Sold price,Qty\\nHat,Unsold,,0\\nCap,Sold,22,2\\n"
    >>> table = read_table(data, "s.csv", HISTORY, {})
    >>> with_unsold_counted(table, Findings(table.rows)).columns["quantity"]
    ['1', '2']
    """
    if "quantity" not in table.columns or _COUNTS & set(table.columns):
        return table
    cells = table.columns["quantity"]
    zero = told(cells, lambda cell: _ZERO.fullmatch(written_cell(cell).strip()) is not None) & ~findings.aside
    if not zero.any():
        return table
    states = state_columns(table)
    none = any_state(table, states, lambda cell: says_not_sold(cell) and says_ended(cell)) | denied(table, states)
    for name in ("sold_price", "sold_on"):
        none |= told(table.cells(name), says_unsold)
    ordered = np.array([not is_blank(written_cell(cell)) for cell in table.cells("order_ref")], dtype=bool)
    none &= zero & ~ordered
    findings.name_where(none, "quantity", cells, "the row says that it has not sold", "counted as one unit not sold")
    counted: list[Cell] = ["1" if one else cell for one, cell in zip(none.tolist(), cells, strict=True)]
    return replace(table, columns={**table.columns, "quantity": counted})
