"""Is a row that equals another in every cell the same sale told twice, or an honest second one?

An order's or a listing's number tells; without either nobody can know, so both count and it is said.
"""

from collections import Counter
from collections.abc import Sequence

from models.intake.cells.reading import ASIDE
from models.intake.grid import is_blank, written_cell
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import BoolArray
from models.values.problems import Caution

_MOST_NAMED = 5


def set_repeats_aside(table: Table, fees: BoolArray, findings: Findings) -> tuple[Caution, ...]:
    """Set rows aside that are surely there twice; a caution for those that may be.

    Parameters
    ----------
    table : Table
        The file; its `repeats` are rows equal in every cell.
    fees : ndarray of shape (n_rows,)
        True for rows of fees, which may well be charged twice.
    findings : Findings
        Told of every row set aside.

    Notes
    -----
    With an order number a row is repeated, unless rows of one order stand together in a file that counts no units: such
    a file may write one row a unit.  With a listing number alone it is repeated, unless the listing sold more than
    once.  These rules are common practice, no source.
    """
    if not table.repeats:
        return ()
    sales, together = _sales_by_listing(table), _standing_together(table)
    kept = []
    for row, first in table.repeats:
        if fees[row] or findings.aside[row]:
            continue
        if _is_repeat(table, row, first, sales, row in together):
            findings.name(row, "", "", f"the same as row {table.rows[first]} in every cell: counted once", ASIDE)
        else:
            kept.append((row, first))
    return _said(table, kept)


def _is_repeat(table: Table, row: int, first: int, sales: Counter[str], together: bool) -> bool:
    order, other = _text(table, "order_ref", row), _text(table, "order_ref", first)
    if order and order == other:
        return "quantity" in table.columns or not together
    listing = _text(table, "listing_ref", row)
    if order or not listing:
        return False
    return not _text(table, "sold_price", row) or sales[listing] <= 1


def _standing_together(table: Table) -> set[int]:
    """Rows that are the same as all rows from the first of them on."""
    together: set[int] = set()
    first_of = dict(table.repeats)
    for row, first in table.repeats:
        if row == first + 1 or (row - 1 in together and first_of[row - 1] == first):
            together.add(row)
    return together


def _sales_by_listing(table: Table) -> Counter[str]:
    """How many different sales each listing has."""
    again = {row for row, _ in table.repeats}
    listings, prices = table.cells("listing_ref"), table.cells("sold_price")
    return Counter(
        written_cell(listing).strip()
        for row, (listing, price) in enumerate(zip(listings, prices, strict=True))
        if row not in again and not is_blank(written_cell(price))
    )


def _text(table: Table, name: str, row: int) -> str:
    if name not in table.columns:
        return ""
    text = written_cell(table.columns[name][row]).strip()
    return "" if is_blank(text) else text


def _said(table: Table, pairs: Sequence[tuple[int, int]]) -> tuple[Caution, ...]:
    if not pairs:
        return ()
    named = "; ".join(f"rows {table.rows[first]} and {table.rows[row]}" for row, first in pairs[:_MOST_NAMED])
    more = "; ..." if len(pairs) > _MOST_NAMED else ""
    what = (
        f"Rows that equal another in every cell: {len(pairs):,} ({named}{more}). Nothing tells whether one sale stands "
        "there twice or two sales are alike: each was counted."
    )
    check = "Delete those that stand there twice, or add columns with the order number and the quantity."
    return (Caution(what, check),)
