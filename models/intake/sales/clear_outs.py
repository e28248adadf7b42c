"""Which sales are wholesale clear-outs: many units to one buyer for a fraction of what one of them brings?"""

from collections import defaultdict

import numpy as np

from models.intake.cells.reading import ASIDE
from models.intake.grid import is_blank, plain_text, written_cell
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import FloatArray, IntArray

MANY_UNITS = 10  # of one row, or of one order; common practice, no source
LOW_SHARE = 0.5  # of what such a unit usually brings, or was asked for; common practice, no source
_FEWEST = 3  # other sales of the same words, to know what one brings


def set_clear_outs_aside(
    table: Table, price: FloatArray, asked: FloatArray, quantity: IntArray, findings: Findings
) -> None:
    """Clear-outs tell nothing of what a unit fetches when it is sold singly.

    Parameters
    ----------
    table : Table
        The file.
    price, asked : ndarray of shape (n_rows,)
        Sold and asking price [minor units a unit], NaN for blank.
    quantity : ndarray of shape (n_rows,)
        Units; 0 for rows that are set aside.
    findings : Findings
        Sets the rows aside.
    """
    usable = ~findings.aside & (price > 0)
    units = _units_together(table, np.where(usable, quantity, 0))
    many = usable & (units >= MANY_UNITS)
    if not many.any():
        return
    usual = _usual(table, np.where(usable & ~many, price, np.nan), asked)
    low = many & (price < LOW_SHARE * usual)
    for row in np.flatnonzero(low).tolist():
        reason = f"a clear-out: {int(units[row])} units to one buyer for less than half of what one brings"
        findings.name(row, "sold_price", table.cells("sold_price")[row], reason, ASIDE)


def _units_together(table: Table, quantity: IntArray) -> IntArray:
    """Units of a row's order; of the row alone where it names no order."""
    orders = [written_cell(cell) for cell in table.cells("order_ref")]
    total: dict[str, int] = defaultdict(int)
    for order, units in zip(orders, quantity.tolist(), strict=True):
        if not is_blank(order):
            total[order] += units
    both = zip(orders, quantity.tolist(), strict=True)
    return np.array([units if is_blank(order) else total[order] for order, units in both], dtype=np.int64)


def _usual(table: Table, single: FloatArray, asked: FloatArray) -> FloatArray:
    """Median price of other sales of the same words, else what was asked; NaN where nothing tells."""
    titles = [plain_text(cell).casefold() for cell in table.cells("title")]
    prices: dict[str, list[float]] = defaultdict(list)
    for title, price in zip(titles, single.tolist(), strict=True):
        if price == price:
            prices[title].append(price)
    medians = {title: float(np.median(several)) for title, several in prices.items() if len(several) >= _FEWEST}
    return np.array([medians.get(title, ask) for title, ask in zip(titles, asked.tolist(), strict=True)])
