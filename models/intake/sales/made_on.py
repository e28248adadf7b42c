"""On which day was a file of listings made?  An unread column with one day in all its rows tells it."""

import numpy as np

from models.intake.cells.dates import Order, ambiguous_parts, read_dates
from models.intake.columns.glances import glance
from models.intake.grid import Cell, is_blank, written_cell
from models.intake.shape.table import Table
from models.values.sale_parts import NEVER

_MOST = 0.5  # of the cells are days
_MOST_STAMPS = 20  # different times of that day


def made_on(table: Table) -> dict[str, np.datetime64]:
    """{header: its one day} of the columns that have one.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import HISTORY
    >>> from models.intake.shape.table import read_table
    >>> data = b"Title,Sold price,Export date\\nHat,21,2026-03-01 10:15\\nCap,9,2026-03-01 10:16\\n"
    >>> made_on(read_table(data, "", HISTORY, {}))
    {'Export date': np.datetime64('2026-03-01')}
    """
    told = {header: _one_day(cells) for header, cells in table.unread.items()}
    return {header: day for header, day in told.items() if not np.isnat(day)}


def _one_day(cells: list[Cell]) -> np.datetime64:
    """A day in every row; NaT where rows differ, are blank, or could be read in two ways."""
    different = list(dict.fromkeys(cells))
    sure = len(different) <= _MOST_STAMPS and not any(
        is_blank(written_cell(cell)) or ambiguous_parts(cell) for cell in different
    )
    if not sure or not different or glance(different).date <= _MOST:
        return NEVER
    days = {reading.value for reading in read_dates(different, Order.DAY)}
    day = days.pop()
    return NEVER if days or day is None else np.datetime64(day, "D")
