"""Was it sold?  A price says so; a date without one, a price of nothing and a cancelled sale set the row aside."""

from dataclasses import replace

import numpy as np

from models.intake.findings import Findings
from models.intake.grid import Cell, is_blank, written_cell
from models.intake.reading import ASIDE
from models.intake.sourcing import says_cancelled, says_unsold, title_says_cancelled
from models.intake.table import Table
from models.values.arrays import BoolArray, FloatArray

_SAID_IN = ("sold_price", "sold_on")


def without_unsold_words(table: Table) -> Table:
    """The table with words such as "unsold" made blank where a price or a date of sale would stand."""
    cleaned = {
        name: ["" if says_unsold(cell) else cell for cell in cells] for name, cells in table.having(_SAID_IN).items()
    }
    return replace(table, columns={**table.columns, **cleaned})


def set_cancelled_aside(table: Table, findings: Findings) -> None:
    """A cancelled row is no sale; told from a status column, or from words where a price, a date or a title stands."""
    for name in ("status", *_SAID_IN):
        cells, header = table.cells(name), table.headers.get(name, "")
        said = {cell: says_cancelled(cell, header) for cell in set(cells)}
        _set_aside(
            np.array([said[cell] for cell in cells], dtype=bool), name, cells, "the sale was cancelled", findings
        )
    titles = table.cells("title")
    named = np.array([title_says_cancelled(title) for title in titles], dtype=bool)
    _set_aside(named, "title", titles, "the sale was cancelled", findings)


def set_unpriced_aside(table: Table, price: FloatArray, findings: Findings) -> None:
    """Rows that claim a sale without a usable price.

    Parameters
    ----------
    table : Table
        The file.
    price : ndarray of shape (n_rows,)
        Sold price [minor units], NaN for blank or unreadable.
    findings : Findings
        Sets the rows aside.
    """
    prices = table.cells("sold_price")
    dated = _filled(table.cells("sold_on"))
    blank = np.isnan(price)
    _set_aside(price < 0, "sold_price", prices, "the sold price is below zero", findings)
    _set_aside(price == 0, "sold_price", prices, "the sold price is zero", findings)
    _set_aside(blank & _filled(prices), "sold_price", prices, "the sold price cannot be read", findings)
    _set_aside(blank & dated, "sold_price", prices, "sold, but without a price", findings)


def _filled(cells: list[Cell]) -> BoolArray:
    return np.array([not is_blank(written_cell(cell)) for cell in cells], dtype=bool)


def _set_aside(mask: BoolArray, name: str, cells: list[Cell], reason: str, findings: Findings) -> None:
    findings.name_where(mask & ~findings.aside, name, cells, reason, ASIDE)
