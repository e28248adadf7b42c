"""An order's number and day on its first row alone: the rows below without them are goods of the same order."""

from dataclasses import replace

import numpy as np

from models.intake.grid import Cell, is_blank, written_cell
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import BoolArray

# A file with one of these also tells of listings that have not sold.
_OF_LISTINGS = ("listed_on", "first_listed_on", "asking_price", "left", "ended_on", "status", "listing_ref", "kind")
_BELOW_ZERO = ("-", "\N{MINUS SIGN}", "(")
_SAID_ONCE = ("order_ref", "sold_on")
_OURS = "order_ref"  # a file with our own headers means an unsold listing by a row without order, day and price


def with_orders_filled(table: Table, findings: Findings) -> Table:
    """The table with order numbers and days filled down in an export of orders.

    Parameters
    ----------
    table : Table
        The file; one that also speaks of listings is left as it is.
    findings : Findings
        Told of every row that was filled.
    """
    headers = table.headers
    if not {"order_ref", "sold_price"} <= set(headers) or headers["order_ref"].strip().casefold() == _OURS:
        return table
    if any(name in headers for name in _OF_LISTINGS):
        return table
    below = _below(table)
    if not below.any():
        return table
    reason = "no order number and day: goods of the order above"
    findings.name_where(below, "order_ref", table.cells("order_ref"), reason, "taken into that order")
    filled = {name: _filled_down(table.columns[name], below) for name in _SAID_ONCE if name in table.columns}
    return replace(table, columns={**table.columns, **filled})


def _below(table: Table) -> BoolArray:
    """Rows with goods, and perhaps their own price, below a row with an order."""
    orders, titles = _blank(table, "order_ref"), _blank(table, "title")
    rest = orders & _blank(table, "sold_on") & ~titles & (_blank(table, "sold_price") | _may_be_priced(table))
    begun = np.maximum.accumulate(~orders) if len(orders) else orders
    return np.asarray(rest & begun, dtype=np.bool_)


def _may_be_priced(table: Table) -> BoolArray:
    """Prices that are no refund's, in a file with days: without any, a row that has none of its own says nothing."""
    dated = "sold_on" in table.columns
    cells = map(written_cell, table.cells("sold_price"))
    return np.array([dated and not cell.strip().startswith(_BELOW_ZERO) for cell in cells], dtype=bool)


def _blank(table: Table, name: str) -> BoolArray:
    return np.array([is_blank(written_cell(cell)) for cell in table.cells(name)], dtype=bool)


def _filled_down(cells: list[Cell], below: BoolArray) -> list[Cell]:
    made: list[Cell] = []
    for cell, fill in zip(cells, below.tolist(), strict=True):
        made.append(made[-1] if fill else cell)
    return made
