"""Do quantities beside a pack size count single units?  Two things in a file show it: multiples, and amounts of lines.

Common practice, no source.
"""

import numpy as np

from models.intake.columns.glances import quick_number
from models.intake.grid import Cell
from models.intake.limits import SAMPLE_ROWS
from models.intake.shape.table import Table
from models.values.arrays import FloatArray, IntArray

_ENOUGH = 3  # rows
_CLEAR = 0.9  # share of them
_ROUNDING = 0.02  # major units a unit


def shows_units(table: Table, quantity: IntArray, sizes: IntArray) -> bool:
    """True where quantities are whole multiples of the size, or make the amount of the line with the tag of a unit.

    Parameters
    ----------
    table : Table
        The file.
    quantity : ndarray of shape (n_rows,)
        As the file counts; 0 for rows that are set aside.
    sizes : ndarray of shape (n_rows,)
        Units in a pack, 0 where none is said.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> from models.intake.shape.table import read_table
    >>> table = read_table(b"Item,Qty,Pack\\nMug,12,6\\n", "m.csv", MANIFEST, {})
    >>> packs = np.array([6, 12, 4])
    >>> shows_units(table, packs * 2, packs), shows_units(table, np.array([4, 12, 2]), packs)
    (True, False)
    """
    packed = (quantity > 0) & (sizes > 1)
    multiples = quantity[packed] % sizes[packed] == 0
    if packed.sum() >= _ENOUGH and multiples.mean() >= _CLEAR:
        return True
    units = quantity[:SAMPLE_ROWS].astype(np.float64)
    each, line = _numbers(table.cells("tag_each")), _numbers(table.cells("tag_line"))
    told = (units > 1) & (each > 0) & (line > 0)
    right = np.abs(units * each - line)[told] <= _ROUNDING * units[told]
    return bool(told.sum() >= _ENOUGH and right.mean() >= _CLEAR)


def _numbers(cells: list[Cell]) -> FloatArray:
    read = [quick_number(cell) for cell in cells[:SAMPLE_ROWS]]
    return np.array([np.nan if number is None else number for number in read], dtype=np.float64)
