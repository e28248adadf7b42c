"""One order of several goods: is the price on its rows each thing's own, or the order's total?

A total of different goods is shared out by what each was asked for, or by its tag; where neither is told, nobody knows
what each brought, and the rows are set aside.
"""

from collections import Counter, defaultdict
from collections.abc import Sequence

import numpy as np

from models.intake.cells.reading import ASIDE
from models.intake.cells.wordings import plain_words
from models.intake.grid import is_blank, plain_text, written_cell
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import BoolArray, FloatArray, IntArray

Orders = list[list[int]]
_FEW, _MOST = 3, 0.8  # orders of several goods, and the share of them with one price throughout, that make a total
_ABOVE_ASKED = 1.25  # a price so far above what was asked holds other goods too
_SHARED_OUT = "the order's total, shared out by {by}"


def order_prices(
    table: Table,
    price: FloatArray,
    quantity: IntArray,
    worth: Sequence[FloatArray],
    findings: Findings,
    totals: bool = False,
) -> FloatArray:
    """Sold price of a unit with the totals of orders shared out.

    Parameters
    ----------
    table : Table
        The file.
    price : ndarray of shape (n_rows,)
        As read [minor units a unit], NaN for blank.
    quantity : ndarray of shape (n_rows,)
        Units; 0 for rows that are set aside or no sale.
    worth : sequence of ndarray of shape (n_rows,)
        What units were asked for and their tags [minor units], NaN for blank: the first that all goods have is used.
    findings : Findings
        Told of every row whose price is a share, and of those set aside.
    totals : bool
        Every price is its order's total [minor units an order], also where an order has one row.

    Returns
    -------
    ndarray of shape (n_rows,)
        [minor units a unit]
    """
    orders = orders_of(table, ~findings.aside & (quantity > 0))
    whole = price / np.maximum(quantity, 1) if totals else price
    if not orders or "sold_price" not in table.columns:
        return whole
    shared = whole.copy()
    below = [order for order in orders if _blank_below(table, price, order)]
    repeated = [order for order in orders if _one_price(price, order)]
    if not totals and not _are_totals(table, price, orders, repeated, worth[0]):
        _name_unsure(table, repeated, price, findings)
        repeated = []
    if totals:
        _name_unlike(table, orders, (*below, *repeated), findings)
    for order in (*below, *repeated):
        shared[order] = price[order]
        _share_out(table, shared, quantity, order, worth, findings)
    return shared


def orders_of(table: Table, usable: BoolArray) -> Orders:
    """Rows of each order of more than one row.

    Parameters
    ----------
    table : Table
        The file.
    usable : ndarray of shape (n_rows,)
        Rows that count.

    Returns
    -------
    list of list of int
        Places among the table's rows.
    """
    cells = table.cells("order_ref")
    texts = {cell: written_cell(cell) for cell, times in Counter(cells).items() if times > 1}
    names = {cell: text for cell, text in texts.items() if not is_blank(text)}
    by_order: dict[str, list[int]] = defaultdict(list)
    for row, (cell, used) in enumerate(zip(cells, usable.tolist(), strict=True)) if names else ():
        if used and cell in names:
            by_order[names[cell]].append(row)
    return [rows for rows in by_order.values() if len(rows) > 1]


def _blank_below(table: Table, price: FloatArray, order: list[int]) -> bool:
    """A price on the first row and none on the others, which are sold all the same."""
    cells = table.cells("sold_price")
    return bool(price[order[0]] > 0) and all(is_blank(written_cell(cells[row])) for row in order[1:])


def _one_price(price: FloatArray, order: list[int]) -> bool:
    return bool(price[order[0]] > 0) and bool(np.all(price[order] == price[order[0]]))


def _goods(table: Table, order: list[int]) -> int:
    titles = table.cells("title")
    return len({plain_text(titles[row]).casefold() for row in order})


def _are_totals(table: Table, price: FloatArray, orders: Orders, repeated: Orders, asked: FloatArray) -> bool:
    """By the header's own words, by what was asked, or since different goods hardly ever bring just the same."""
    words = set(plain_words(table.headers["sold_price"]).split())
    if words & {"total", "order", "gesamt", "gesamtpreis", "importe"} and "item" not in words:
        return True
    different = [order for order in repeated if _goods(table, order) > 1]
    told = [order for order in different if not np.isnan(asked[order]).any()]
    if told:
        return all(price[order[0]] > _ABOVE_ASKED * asked[order].min() for order in told)
    several = [order for order in orders if _goods(table, order) > 1]
    return len(different) >= _FEW and len(different) >= _MOST * len(several)


def _name_unsure(table: Table, repeated: Orders, price: FloatArray, findings: Findings) -> None:
    cells = table.cells("sold_price")
    for order in repeated:
        if _goods(table, order) > 1:
            for row in order:
                findings.name(
                    row,
                    "sold_price",
                    cells[row],
                    "the same price on different goods of one order",
                    "read as each one's own",
                )


def _name_unlike(table: Table, orders: Orders, shared: Sequence[list[int]], findings: Findings) -> None:
    cells, told = table.cells("sold_price"), {order[0] for order in shared}
    for order in orders:
        for row in order if order[0] not in told else ():
            reason = "an order's total that is not the same on all of its rows"
            findings.name(row, "sold_price", cells[row], reason, "read as what its row brought")


def _share_out(
    table: Table,
    price: FloatArray,
    quantity: IntArray,
    order: list[int],
    worth: Sequence[FloatArray],
    findings: Findings,
) -> None:
    """The total is the order's: units of the goods are not multiplied into it."""
    total, units = price[order[0]], quantity[order].astype(np.float64)
    by, weight = _weights(table, order, worth)
    cells = table.cells("sold_price")
    for number, row in enumerate(order):
        if weight is None:
            reason = f"the total of an order of {len(order)} goods; what each brought is not told"
            findings.name(row, "sold_price", cells[row] if cells[row] != "" else cells[order[0]], reason, ASIDE)
            continue
        price[row] = total * weight[number] / (weight * units).sum()
        findings.name(
            row, "sold_price", cells[row], f"the price of a whole order of {len(order)} rows", _SHARED_OUT.format(by=by)
        )


def _weights(table: Table, order: list[int], worth: Sequence[FloatArray]) -> tuple[str, FloatArray | None]:
    """What a unit of each row counts for."""
    if _goods(table, order) == 1:
        return "units", np.ones(len(order))
    for by, amounts in zip(("asking prices", "tags"), worth, strict=True):
        if bool(np.all(amounts[order] > 0)):
            return by, amounts[order]
    return "", None
