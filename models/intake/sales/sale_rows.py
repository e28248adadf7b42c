"""What is each row of a sold history: a sale, a listing, a refund, a fee, or nothing that counts?"""

from dataclasses import dataclass

import numpy as np

from models.intake.cells.amounts import Amounts
from models.intake.cells.reading import ASIDE
from models.intake.grid import is_blank, written_cell
from models.intake.sales.history_table import Sort
from models.intake.sales.sale_words import Kind, row_kind
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import BoolArray, FloatArray

_USED = "counted as a refund of its sale, where a file has it"


@dataclass(frozen=True)
class Events:
    """Rows that speak of sales elsewhere, and their whole amounts [minor units], NaN where they say none."""

    refund: BoolArray
    fee: BoolArray
    refunded: FloatArray
    fees: FloatArray
    labels: FloatArray

    @property
    def any(self) -> BoolArray:
        """Rows that are no sale and no listing themselves."""
        return np.asarray(self.refund | self.fee)


def row_events(table: Table, sort: Sort, amounts: dict[str, Amounts], findings: Findings) -> Events:
    """Refunds and fees in rows of their own; what moves money without a sale is set aside.

    Parameters
    ----------
    table : Table
        The file.
    sort : Sort
        Every row of a statement is one of these, or nothing that counts.
    amounts : dict
        Money columns of the file [minor units].
    findings : Findings
        Told of every such row.
    """
    words = table.cells("kind")
    known = {cell: row_kind(cell) for cell in set(words)}
    kinds = [known[cell] for cell in words]
    said = {kind: np.array([one is kind for one in kinds], dtype=bool) for kind in Kind}
    price, whole = _minor(table, amounts, "sold_price"), _minor(table, amounts, "amount")
    refunded, fees, labels = (_minor(table, amounts, name) for name in ("refunded", "fees", "shipping_paid"))
    below = (price < 0) & ~said[Kind.FEE] & ~said[Kind.LABEL] & _has_sale(table, price)
    refund = (said[Kind.REFUND] & ~(np.isnan(price) & np.isnan(whole) & ~(refunded != 0))) | below
    refund |= _only_refunded(table, price, refunded) & ~said[Kind.SALE]
    of_fees = refund & _told(fees) & np.isnan(_first(refunded, whole, price))  # no other column says how much
    if not (said[Kind.LABEL] & _told(fees)).any():
        refund &= ~of_fees  # of fees alone: what was charged for the sale came back
    label = said[Kind.LABEL] & ~refund
    fee = said[Kind.FEE] & ~refund
    if sort is Sort.STATEMENT:
        fee |= ~refund & ~label & (_told(fees) | _told(labels)) & ~said[Kind.MOVED]
        refund |= ~fee & ~label & _told(refunded)
    _set_others_aside(table, sort, said, refund | fee | label, findings)
    if not (refund.any() or fee.any() or label.any()):
        nothing = _nothing(len(table))
        return Events(refund, fee, nothing, nothing, nothing)
    out = said[Kind.FEE] | said[Kind.LABEL] | said[Kind.REFUND]
    paid = [_paid_out(column, out, said[Kind.SALE]) for column in (whole, price)]
    events = Events(
        refund,
        fee | label,
        _outflow(
            np.where(refund, _first(refunded, whole, price, fees), refunded if sort is Sort.STATEMENT else np.nan),
            refund,
        ),
        np.where(fee, _first(_signed(np.where(fee, fees, np.nan)), *paid), np.nan),
        _outflow(np.where(label, _first(labels, whole, fees, price), np.where(fee, labels, np.nan)), label),
    )
    return events


def name_events(table: Table, events: Events, findings: Findings) -> None:
    """Tell of every refund; fees by the hundred are what a statement is made of."""
    free = ~findings.aside
    column = "sold_price" if "sold_price" in table.columns else "refunded"
    findings.name_where(events.refund & free, column, table.cells(column), "a refund in a row of its own", _USED)


def _minor(table: Table, amounts: dict[str, Amounts], name: str) -> FloatArray:
    return amounts[name].minor if name in amounts else _nothing(len(table))


def _nothing(rows: int) -> FloatArray:
    """Blanks that take no memory."""
    return np.broadcast_to(np.float64(np.nan), (rows,))


def _told(amounts: FloatArray) -> BoolArray:
    return np.asarray(~np.isnan(amounts) & (amounts != 0))


def _first(*columns: FloatArray) -> FloatArray:
    """The first amount that is told and not zero."""
    made = np.full(len(columns[0]), np.nan)
    for column in columns:
        made = np.where(np.isnan(made) & _told(column), column, made)
    return made


def _outflow(amounts: FloatArray, rows: BoolArray) -> FloatArray:
    """Money that went out, whatever sign it has."""
    return np.where(amounts == 0, np.nan, np.abs(amounts))


def _signed(fees: FloatArray) -> FloatArray:
    """Fees count as positive; credits among them have the rarer sign."""
    told = fees[~np.isnan(fees)]
    return -fees if (told < 0).sum() > (told > 0).sum() else fees


def _paid_out(amounts: FloatArray, out: BoolArray, brought: BoolArray) -> FloatArray:
    """Amounts as what was paid: a column where what goes out is below zero, or what comes in above, is a purse's."""
    down = (amounts[out] < 0).sum() + (amounts[brought] > 0).sum()
    return -amounts if down > (amounts[out] > 0).sum() + (amounts[brought] < 0).sum() else amounts


def _filled(table: Table, name: str) -> BoolArray:
    return np.array([not is_blank(written_cell(cell)) for cell in table.cells(name)], dtype=bool)


def _has_sale(table: Table, price: FloatArray) -> BoolArray:
    """A row with a reference, or with the very words, SKU and amount of one sale above or below it."""
    if not (price < 0).any():
        return np.zeros(len(price), dtype=bool)
    referred = _filled(table, "order_ref") | _filled(table, "listing_ref")
    keys = list(zip(table.cells("title"), table.cells("sku"), np.abs(price).tolist(), strict=True))
    sold = {key for key, amount in zip(keys, price.tolist(), strict=True) if amount > 0}
    return np.asarray(referred | np.array([key[0] != "" and key in sold for key in keys], dtype=bool))


def _only_refunded(table: Table, price: FloatArray, refunded: FloatArray) -> BoolArray:
    """No price, a refund and an order: its sale stands in another row or file."""
    only = np.asarray((np.isnan(price) | (price == 0)) & _told(refunded))
    return only & _filled(table, "order_ref") if only.any() else only


def _set_others_aside(
    table: Table, sort: Sort, said: dict[Kind, BoolArray], used: BoolArray, findings: Findings
) -> None:
    moved = said[Kind.MOVED] & ~used & ~findings.aside
    findings.name_where(moved, "kind", table.cells("kind"), "money that moved without a sale", ASIDE)
    if sort is Sort.STATEMENT:
        others = ~used & ~findings.aside
        findings.name_where(others, "kind", table.cells("kind"), "neither a fee nor a refund", ASIDE)
