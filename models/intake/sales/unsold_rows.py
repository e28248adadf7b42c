"""Which rows with a price have not sold?  Their price is what is asked; what they were taken for is said.

A status decides, then a word where the day of sale would stand.  Where other rows have a day of sale, a row that has
one of listing and none of sale is a listing.
"""

from collections.abc import Callable

import numpy as np

from models.intake.cells.sourcing import says_cancelled, says_unsold
from models.intake.grid import Cell, is_blank, written_cell
from models.intake.sales.price_or_asked import says_fetched
from models.intake.sales.state_columns import any_state, denied, said_sold, state_columns, told
from models.intake.sales.status_words import is_known_state, says_not_sold, says_runs, says_unsold_state
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import BoolArray
from models.values.problems import Caution

_OF_LISTING = ("listed_on", "first_listed_on", "ended_on")
_OF_SALE = ("fees", "refunded", "shipping_charged")
_ASKED = "read as the asking price of a listing that has not sold"
_NONE_ASKED = "counted as a listing that has not sold"
_SHOWN = 3


def unsold_rows(table: Table, findings: Findings) -> tuple[BoolArray, tuple[Caution, ...]]:
    """True for rows that have not sold although a price stands there, and what is to be said of them.

    Parameters
    ----------
    table : Table
        The file as it stands, before days are taken from other columns.
    findings : Findings
        Told of every row where the price's own header says that it sold, or that only lacks a day.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import HISTORY
    >>> from models.intake.shape.table import read_table
    >>> data = b"Title,Status,Sold price,Sold on\\nHat,Unsold,21,\\nCap,Sold,22,2025-02-18\\n"
    >>> table = read_table(data, "s.csv", HISTORY, {})
    >>> unsold_rows(table, Findings(table.rows))[0].tolist()
    [True, False]
    """
    worded = _told(table, "sold_price", says_unsold)
    priced = _filled(table, "sold_price") & ~worded & ~findings.aside
    if not (priced | worded).any():
        return priced, ()
    ordered = _filled(table, "order_ref")
    dated = _filled(table, "sold_on") & ~_told(table, "sold_on", says_unsold)
    states = state_columns(table)
    sure = said_sold(table, states)
    said = any_state(table, states, says_not_sold)
    said |= any_state(table, states, says_unsold_state) & ~sure & ~dated & ~ordered
    said |= worded | ((_told(table, "sold_on", says_unsold) | denied(table, states)) & ~ordered)
    header = table.headers.get("status", "")
    strange = _told(table, "status", lambda cell: not is_known_state(cell) and not says_cancelled(cell, header)) & ~said
    nothing = _told(table, "sold_price", _is_nothing)
    lacking = priced & ~said & ~sure & ~dated & ~ordered & ~_tells_of_sale(table, nothing)
    brought = priced & ~nothing
    guessed = lacking & strange if (brought & (dated | sure)).any() else np.zeros(len(table), dtype=bool)
    if (brought & dated).any():
        guessed |= lacking & _any_filled(table, _OF_LISTING)
    _name(table, said & priced, guessed, nothing, findings)
    if not {"left", "sold_count"} & set(table.columns):  # a listing of several units goes on when one sells
        for name, cells in states.items():
            runs = told(cells, says_runs) & priced & dated & ~ordered & ~said & ~sure
            findings.name_where(runs, name, cells, "for sale, and yet with a day of sale", "counted as sold")
    waiting = (*_said(said & brought, guessed & brought), *_strangers(table, strange & priced & ~guessed))
    return (said | guessed) & ~findings.aside, waiting


def none_sold(table: Table, zero: BoolArray, findings: Findings) -> BoolArray:
    """True for listings that count no unit as sold, orders aside; told where a price stands there all the same."""
    if not zero.any():
        return zero
    none = zero & ~_filled(table, "order_ref")
    priced = none & _filled(table, "sold_price") & ~findings.aside
    findings.name_where(priced, "sold_price", table.cells("sold_price"), "the row says that none sold", _ASKED)
    return none


def name_undated(table: Table, sold: BoolArray, findings: Findings) -> None:
    """Tell of sales without a day in a file where others have one.

    Parameters
    ----------
    table : Table
        The file.
    sold : ndarray of shape (n_rows,)
        True for sales.
    findings : Findings
        Told of them.
    """
    if "sold_on" not in table.columns or "sold_on" not in table.headers:
        return
    dated = _filled(table, "sold_on")
    if (dated & sold).any():
        reason = "no day of sale, where other rows have one"
        mask = sold & ~dated & ~findings.aside
        findings.name_where(mask, "sold_on", table.cells("sold_on"), reason, "counted as a sale without a day")


def _tells_of_sale(table: Table, nothing: BoolArray) -> BoolArray:
    """Amounts only sales have; beside a price of nothing, fees of nothing tell of none."""
    made = np.zeros(len(table), dtype=bool)
    for name in _OF_SALE:
        made |= _filled(table, name) & ~(nothing & _told(table, name, _is_nothing))
    return made


def _name(table: Table, said: BoolArray, guessed: BoolArray, nothing: BoolArray, findings: Findings) -> None:
    cells = table.cells("sold_price")
    for priced, done in ((~nothing, _ASKED), (nothing, _NONE_ASKED)):
        if says_fetched(table.headers.get("sold_price", "")):
            findings.name_where(said & priced, "sold_price", cells, "the row says that it has not sold", done)
        findings.name_where(guessed & priced, "sold_price", cells, "nothing tells that it sold, as other rows do", done)


def _said(said: BoolArray, guessed: BoolArray) -> tuple[Caution, ...]:
    count = int((said | guessed).sum())
    if not count:
        return ()
    by = [f"{int(said.sum()):,} by their own words"] if said.any() else []
    by += [f"{int(guessed.sum()):,} since they have no day of sale and other rows have"] if guessed.any() else []
    what = f"Rows with a price that have not sold: {count:,} ({', '.join(by)}). Their price is what is asked."
    return (Caution(what, "If one of them sold, give it the day of its sale."),)


def _strangers(table: Table, strange: BoolArray) -> tuple[Caution, ...]:
    if not strange.any():
        return ()
    cells = table.cells("status")
    rows = np.flatnonzero(strange).tolist()
    first: dict[str, str] = {}
    for row in rows:
        first.setdefault(written_cell(cells[row]), f"'{written_cell(cells[row])}' (row {table.rows[row]})")
    different = list(first.values())
    more = ", ..." if len(different) > _SHOWN else ""
    shown = ", ".join(different[:_SHOWN])
    what = (
        f"Rows whose '{table.headers['status']}' nobody here knows: {len(rows):,}: {shown}{more}. They count as sold."
    )
    return (Caution(what, "Take out the rows that are no sale, or write 'unsold' or 'cancelled' there."),)


def _is_nothing(cell: Cell) -> bool:
    return not any(sign.isdigit() and sign != "0" for sign in written_cell(cell))


def _told(table: Table, name: str, says: Callable[[Cell], bool]) -> BoolArray:
    return told(table.columns[name], says) if name in table.columns else np.zeros(len(table), dtype=bool)


def _filled(table: Table, name: str) -> BoolArray:
    if name not in table.columns:
        return np.zeros(len(table), dtype=bool)
    cells = table.columns[name]
    blank = {cell for cell in set(cells) if is_blank(written_cell(cell))}  # few cells differ in most columns
    return np.array([cell not in blank for cell in cells], dtype=bool)


def _any_filled(table: Table, names: tuple[str, ...]) -> BoolArray:
    made = np.zeros(len(table), dtype=bool)
    for name in names:
        if name in table.columns:
            made |= _filled(table, name)
    return made
