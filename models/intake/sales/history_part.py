"""From a file's columns to the part it plays: each row a sale, a listing, a refund or fee, or two of these at once."""

from dataclasses import fields, replace

import numpy as np

from models.intake.grid import is_blank, written_cell
from models.intake.sales.history_columns import HistoryColumns
from models.intake.sales.history_table import Sort
from models.intake.sales.sale_pieces import NOT_TOLD
from models.intake.sales.state_columns import any_state, said_sold, state_columns
from models.intake.sales.status_words import says_ended, says_runs
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import BoolArray, CodeArray, IntArray
from models.values.sale_parts import (
    COUNTED,
    ENDED,
    ENDINGS,
    FEES,
    KNOWN,
    LEFT,
    LISTED,
    LISTINGS,
    LIVE,
    REFUND,
    SOLD,
    VOID,
    SalePart,
)
from models.values.sales import Sales

# What a listing that is left does not have of the sales that were made from it.
_OF_SALE = ("sold_price", "fees", "shipping_charged", "shipping_paid", "refunded")


def history_part(read: HistoryColumns, findings: Findings) -> SalePart:
    """The rows that count, each with its role; a listing of which some units sold is two pieces.

    Parameters
    ----------
    read : HistoryColumns
        The file.
    findings : Findings
        Rows that are set aside are left out, but for cancelled orders, which undo what an earlier file said.
    """
    sales = Sales(**{field.name: read.named[field.name] for field in fields(Sales)})
    sales = _with_events(sales, read)
    role = _roles(read, sales)
    sales = replace(sales, quantity=_units(read, sales, role))
    void = read.gone & (sales.order_ref != "") & findings.aside
    role = np.where(void, VOID, role).astype(np.int8)
    kept = ~findings.aside | void
    rows = np.flatnonzero(kept)
    split = np.flatnonzero(kept & ((role == SOLD) | (role == COUNTED)) & (read.counts.left > 0))
    chosen = sales if kept.all() else sales.take(rows)  # a million rows are not copied for nothing
    part = SalePart(_ended(chosen, role[rows]), role[rows], np.zeros(len(rows), dtype=np.int8), read.made_on)
    return _with_rest(part, sales, read, split) if len(split) else part


def _ended(sales: Sales, role: CodeArray) -> Sales:
    """Only what ended without a sale has a day of it, and what sold out, whose sales other files hold."""
    if np.isnat(sales.ended_on).all():
        return sales
    return replace(
        sales, ended_on=np.where(np.isin(role, (*ENDINGS, KNOWN)), sales.ended_on, np.datetime64("NaT", "D"))
    )


def _units(read: HistoryColumns, sales: Sales, role: CodeArray) -> IntArray:
    """Of a listing that has not sold those that are left; of a count of sales those that sold."""
    listed = np.isin(role, LISTINGS) & (read.counts.left > 0)
    return np.where(listed, read.counts.left, sales.quantity)


def _with_events(sales: Sales, read: HistoryColumns) -> Sales:
    """Refunds and fees keep their row's whole amount and nothing else of money."""
    events = read.events
    if not events.any.any():
        return sales
    put = {
        "refunded": np.where(events.any, events.refunded, sales.refunded),
        "fees": np.where(events.any, events.fees, sales.fees),
        "shipping_paid": np.where(events.any, events.labels, sales.shipping_paid),
        "sold_price": np.where(events.any, np.nan, sales.sold_price),
    }
    return replace(sales, **put)


def _roles(read: HistoryColumns, sales: Sales) -> CodeArray:
    sold = np.where(_is_counted(read, sales), COUNTED, SOLD)
    role = np.where(sales.sold, sold, _listed(read, sales))
    role = np.where(read.events.refund, REFUND, np.where(read.events.fee, FEES, role))
    return np.asarray(role, dtype=np.int8)


def _is_counted(read: HistoryColumns, sales: Sales) -> BoolArray:
    """A listing's count of what it sold, not an order: it says how many, and names no order."""
    return np.asarray((read.counts.sold != NOT_TOLD) & (read.counts.left != NOT_TOLD) & (sales.order_ref == ""))


def _listed(read: HistoryColumns, sales: Sales) -> CodeArray:
    """Listings that have not sold: running, ended or not said; KNOWN where none of it is left."""
    left, states = read.counts.left, state_columns(read.table)
    state = np.full(len(sales), -1)
    state = np.where(any_state(read.table, states, says_runs), LIVE, state)
    state = np.where(any_state(read.table, states, says_ended), ENDED, state)
    state = np.where(said_sold(read.table, states), KNOWN, state)
    by_columns = np.where(np.isnat(sales.ended_on), LISTED, ENDED)
    if read.sort is Sort.LISTINGS:
        ended = _filled(read.table, "ended_on")
        by_columns = np.where(ended & (left == NOT_TOLD), ENDED, LIVE)
    role = np.where(left > 0, np.where(np.isnat(sales.ended_on), LIVE, ENDED), np.where(left == 0, KNOWN, by_columns))
    over = (state >= 0) & ~((state == KNOWN) & (left > 0))
    role = np.where(over & (left != 0), state, role)
    return np.asarray(np.where((role == ENDED) & (left > 0), LEFT, role), dtype=np.int8)


def _filled(table: Table, name: str) -> BoolArray:
    return np.array([not is_blank(written_cell(cell)) for cell in table.cells(name)], dtype=bool)


def _with_rest(part: SalePart, sales: Sales, read: HistoryColumns, split: np.ndarray) -> SalePart:
    """Append what is left of listings as pieces of their own, each right after its row."""
    rest = sales.take(split)
    blank = np.full(len(split), np.nan)
    never = np.full(len(split), np.datetime64("NaT", "D"))
    rest = replace(rest, **dict.fromkeys(_OF_SALE, blank), sold_on=never, quantity=read.counts.left[split])
    both = Sales(
        **{f.name: np.concatenate([getattr(part.sales, f.name), getattr(rest, f.name)]) for f in fields(Sales)}
    )
    role = np.concatenate([part.role, _listed(read, sales)[split]])
    both = _ended(both, role)
    piece = np.concatenate([part.piece, np.ones(len(split), dtype=np.int8)])
    order = np.lexsort((piece, both.row))
    return SalePart(both.take(order), role[order], piece[order], part.made_on)
