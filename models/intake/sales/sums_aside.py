"""Rows that sum the sales above them are no sales: told by their words, or by their numbers where they lack a day."""

import numpy as np

from models.intake.cells.period_words import names_figure, names_period, names_sum_of_period
from models.intake.cells.reading import ASIDE
from models.intake.grid import is_blank, written_cell
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.intake.shape.total_words import says_total, sums_needed
from models.values.arrays import BoolArray, FloatArray

_OF_A_SALE = ("sold_on", "order_ref", "listing_ref", "sku", "gtin", "listed_on")
_CLOSE = 1.0  # minor unit
_MOST = 200  # rows that are compared with the rows above them


def set_sums_aside(table: Table, price: FloatArray, findings: Findings) -> None:
    """Set the rows aside that are totals of a month, or of all.

    Parameters
    ----------
    table : Table
        The file.
    price : ndarray of shape (n_rows,)
        As written [minor units], NaN for blank.
    findings : Findings
        Told of each.

    Notes
    -----
    Such a row has no day, no number and no key.  By its words it is one where other rows have days, else if its amount
    is the sum of rows above as well.  Without words it is one if other rows have days and its amount is the sum of two
    or more rows since the sum before, or of all.
    """
    bare = (price > 0) & ~findings.aside
    for name in _OF_A_SALE:
        if not bare.any():  # most files: every sale has a day
            return
        bare &= _blank(table, name)
    places = np.flatnonzero(bare)[:_MOST].tolist()
    if not places:
        return
    dated = bool((~_blank(table, "sold_on") & (price > 0)).any())
    titles, cells, units = table.cells("title"), table.cells("sold_price"), _units(table)
    gone = findings.aside | ~(price > 0)
    begun = 0
    for row in places:
        if dated and names_figure(titles[row]):
            findings.name(row, "sold_price", cells[row], "a figure about sales, not a sale", ASIDE)
            gone[row] = True
            continue
        sums = _sums(price, units, gone, begun, row)
        worded = any(says(titles[row]) for says in (names_sum_of_period, names_period, says_total))
        named = worded or sums_needed(titles[row]) > 0
        if (worded and dated) or (sums and (named or (dated and _rows(gone, begun, row) > 1))):
            reason = "a sum of the rows above, not a sale" if sums else "a total or a stretch of time, not a sale"
            findings.name(row, "sold_price", cells[row], reason, ASIDE)
            gone[row] = True
            begun = row + 1


def _rows(gone: BoolArray, begun: int, row: int) -> int:
    since = int((~gone[begun:row]).sum())
    return since if since > 1 else int((~gone[:row]).sum())


def _sums(price: FloatArray, units: FloatArray, gone: BoolArray, begun: int, row: int) -> bool:
    for start in dict.fromkeys((begun, 0)):
        counted = ~gone[start:row]
        if counted.any():
            for amounts in (price[start:row], price[start:row] * units[start:row]):
                if abs(float(amounts[counted].sum()) - price[row]) < _CLOSE:
                    return True
    return False


def _units(table: Table) -> FloatArray:
    cells = [written_cell(cell).strip() for cell in table.cells("quantity")]
    return np.array([float(cell) if cell.isdecimal() and len(cell) < 7 else 1.0 for cell in cells])


def _blank(table: Table, name: str) -> BoolArray:
    if name not in table.columns:
        return np.ones(len(table), dtype=bool)
    return np.array([is_blank(written_cell(cell)) for cell in table.columns[name]], dtype=bool)
