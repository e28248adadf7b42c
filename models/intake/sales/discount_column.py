"""A column of discounts: are the prices before them or after?  Told by sums that come out; else it is named."""

from collections.abc import Iterator, Mapping

import numpy as np

from models.intake.cells.amounts import Amounts, read_amounts
from models.intake.fields.unread_money import money_unread
from models.intake.shape.table import Table
from models.values.arrays import FloatArray, IntArray
from models.values.problems import Caution

_DISCOUNT = "discount"
_MOST, _FEW = 0.9, 2  # of the rows with a discount, and rows, whose sums must come out
_CLOSE = 1.0  # minor unit


def less_discount(
    table: Table, price: FloatArray, quantity: IntArray, amounts: Mapping[str, Amounts], currency: str
) -> tuple[FloatArray, tuple[Caution, ...]]:
    """Sold price of a unit without the discount of its row, where a total beside it proves that it is still inside.

    Parameters
    ----------
    table : Table
        The file.
    price : ndarray of shape (n_rows,)
        As read [minor units a unit].
    quantity : ndarray of shape (n_rows,)
        Units; 0 for rows that are set aside.
    amounts : mapping
        Money columns [minor units a row].
    currency : str
        ISO 4217.
    """
    if _DISCOUNT not in amounts or "sold_price" not in amounts:
        return price, ()
    off, header = np.abs(np.nan_to_num(amounts[_DISCOUNT].minor)), table.headers[_DISCOUNT]
    if not off.any():
        return price, ()
    total, inside = next(_sums(table, off, quantity, amounts, currency), ("", False))
    if not total:
        what = f"'{header}' was not taken off: no sum in the file tells whether prices are before it or after."
        return price, (Caution(what, "If they are before it, give the prices that were paid."),)
    if not inside:
        return price, ()
    less = price - off / np.maximum(quantity, 1)
    what = f"'{header}' was taken off the prices in '{table.headers['sold_price']}': with it they come to '{total}'."
    return np.where(less > 0, less, price), (Caution(what, "See that these are the prices that were paid."),)


def _sums(
    table: Table, off: FloatArray, quantity: IntArray, amounts: Mapping[str, Amounts], currency: str
) -> Iterator[tuple[str, bool]]:
    """Totals that come out, each with whether they do so only with the discount taken off."""
    for header, total in read_amounts(money_unread(table), currency, table.comma_likely).items():
        rows = len(total.minor)
        beside = [np.nan_to_num(amounts[name].minor[:rows]) for name in ("shipping_charged", "tax") if name in amounts]
        price, units, less = amounts["sold_price"].minor[:rows], quantity[:rows], off[:rows]
        for whole in (price, price * units):
            for more in (0.0, *beside, sum(beside)):
                for inside, made in ((True, whole - less + more), (False, whole + more)):
                    if _comes_out(made, total.minor, less > 0):
                        yield header, inside


def _comes_out(made: FloatArray, told: FloatArray, counted: np.ndarray) -> bool:
    both = np.isfinite(made) & np.isfinite(told) & counted
    return int(both.sum()) >= _FEW and bool((np.abs(made - told)[both] <= _CLOSE).mean() >= _MOST)
