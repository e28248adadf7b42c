"""Was it sold?  A price says so; a date without one, a price of nothing and a cancelled sale set the row aside."""

import re
from dataclasses import replace
from functools import partial

import numpy as np

from models.intake.cells.reading import ASIDE
from models.intake.cells.sourcing import says_cancelled, says_unsold, title_says_cancelled
from models.intake.grid import Cell, is_blank, written_cell
from models.intake.sales.sale_words import says_kept, says_unpaid
from models.intake.sales.state_columns import header_of, state_columns, told
from models.intake.sales.status_words import answers, asks_paid
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import BoolArray, FloatArray
from models.values.problems import Caution

_SAID_IN = ("sold_price", "sold_on")
_NOTHING = re.compile(r"[^\d]*(?:0+(?:[.,]0+)?)?[^\d]*")


def without_unsold_words(table: Table) -> Table:
    """The table with words such as "unsold" made blank where a price or a date of sale would stand."""
    cleaned = {
        name: ["" if says_unsold(cell) else cell for cell in cells] for name, cells in table.having(_SAID_IN).items()
    }
    return replace(table, columns={**table.columns, **cleaned})


def with_end_days(table: Table, unsold: BoolArray) -> tuple[Table, tuple[Caution, ...]]:
    """A listing that sold ended on the day it sold: taken for that day where no other column tells it, and said."""
    if "sold_on" in table.columns or not {"ended_on", "sold_price"} <= set(table.columns):
        return table, ()
    priced = (_filled(table.cells("sold_price")) & ~unsold).tolist()
    days: list[Cell] = [cell if sold else "" for cell, sold in zip(table.cells("ended_on"), priced, strict=True)]
    what = f"No column tells the day of a sale; '{table.headers['ended_on']}' of listings that sold was taken for it."
    return replace(table, columns={**table.columns, "sold_on": days}), (
        Caution(what, "Name the column if another has it."),
    )


def with_ends_of(table: Table, unsold: BoolArray) -> Table:
    """The table with days of ending of what has not sold alone: of the rest they tell nothing of their own."""
    if "ended_on" not in table.columns:
        return table
    kept: list[Cell] = [cell if own else "" for cell, own in zip(table.cells("ended_on"), unsold.tolist(), strict=True)]
    return replace(table, columns={**table.columns, "ended_on": kept})


def set_kept_aside(table: Table, findings: Findings) -> None:
    """Goods that were kept, given away or thrown away are neither sold nor for sale."""
    columns = {**state_columns(table), **table.having(("kind", *_SAID_IN, "title"))}
    for name, cells in columns.items():
        kept = told(cells, lambda cell: isinstance(cell, str) and says_kept(cell))
        if name == "title":  # the keep of a castle is goods: only where nothing was paid
            kept, name, cells = kept & _nothing_paid(table), "sold_price", table.cells("sold_price")
        _set_aside(kept, name, cells, "kept or given away: no sale", findings)


def set_unpaid_aside(table: Table, findings: Findings) -> None:
    """Nobody has paid yet, or ever will."""
    for name, cells in state_columns(table).items():
        unpaid = told(cells, says_unpaid)
        if asks_paid(header_of(table, name)):
            unpaid |= told(cells, lambda cell: answers(cell) is False)
        _set_aside(unpaid, name, cells, "not paid: no sale", findings)


def set_cancelled_aside(table: Table, findings: Findings) -> None:
    """A cancelled row is no sale; told from a status column, or from words where a price, a date or a title stands."""
    for name, cells in {**state_columns(table), **table.having(_SAID_IN)}.items():
        cancelled = told(cells, partial(says_cancelled, header=header_of(table, name)))
        _set_aside(cancelled, name, cells, "the sale was cancelled", findings)
    titles = table.cells("title")
    named = np.array([title_says_cancelled(title) for title in titles], dtype=bool)
    _set_aside(named, "title", titles, "the sale was cancelled", findings)


def set_unpriced_aside(table: Table, price: FloatArray, others: BoolArray, findings: Findings) -> None:
    """Rows that claim a sale without a usable price.

    Parameters
    ----------
    table : Table
        The file.
    price : ndarray of shape (n_rows,)
        Sold price [minor units], NaN for blank or unreadable.
    others : ndarray of shape (n_rows,)
        True for rows that claim no sale: refunds and fees.
    findings : Findings
        Sets the rows aside.
    """
    prices = table.cells("sold_price")
    dated = _filled(table.cells("sold_on")) & ~others
    price = np.where(others, np.nan, price)
    blank = np.isnan(price) & ~others
    _set_aside(price < 0, "sold_price", prices, "the sold price is below zero", findings)
    _set_aside(price == 0, "sold_price", prices, "the sold price is zero", findings)
    _set_aside(blank & _filled(prices), "sold_price", prices, "the sold price cannot be read", findings)
    _set_aside(blank & dated, "sold_price", prices, "sold, but without a price", findings)


def _nothing_paid(table: Table) -> BoolArray:
    nothing = [_NOTHING.fullmatch(written_cell(cell).strip()) is not None for cell in table.cells("sold_price")]
    return np.array(nothing, dtype=bool)


def _filled(cells: list[Cell]) -> BoolArray:
    return np.array([not is_blank(written_cell(cell)) for cell in cells], dtype=bool)


def _set_aside(mask: BoolArray, name: str, cells: list[Cell], reason: str, findings: Findings) -> None:
    findings.name_where(mask & ~findings.aside, name, cells, reason, ASIDE)
