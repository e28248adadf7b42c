"""What did a sale bring and cost, a unit?  Amounts of a row are divided by its quantity; outflows count as positive."""

from collections.abc import Mapping

import numpy as np

from models.intake.cells.amounts import Amounts
from models.intake.cells.reading import BLANK
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import FloatArray, IntArray

PER_UNIT = ("tag_each", "asking_price")
PER_ROW = ("cost", "fees", "shipping_charged", "shipping_paid", "refunded")
MONEY_COLUMNS = ("sold_price", *PER_UNIT, *PER_ROW)

_OUTFLOWS = frozenset({"cost", "fees", "shipping_paid", "refunded"})  # many exports write them below zero
_MAY_BE_NEGATIVE = frozenset({"fees", "sold_price"})  # a credit of fees; a price below zero sets its row aside


def unit_amounts(
    amounts: Mapping[str, Amounts], table: Table, quantity: IntArray, price_is_row: bool, findings: Findings
) -> dict[str, FloatArray]:
    """All money columns of a history.

    Parameters
    ----------
    amounts : mapping
        Amounts [minor units] of the columns the file has.
    table : Table
        The file.
    quantity : ndarray of shape (n_rows,)
        Units of the row; 0 for rows that are set aside.
    price_is_row : bool
        `sold_price` stands for the whole row.
    findings : Findings
        Told of amounts below zero where none may be.

    Returns
    -------
    dict
        {canonical: ndarray of shape (n_rows,)} [minor units a unit], NaN for blank.
    """
    units = np.maximum(quantity, 1)
    made: dict[str, FloatArray] = {}
    for name in MONEY_COLUMNS:
        if name not in amounts:
            made[name] = np.full(len(table), np.nan)
            continue
        minor = _signed(name, amounts[name].minor)
        if name not in _MAY_BE_NEGATIVE:
            below = minor < 0
            findings.name_where(below, name, table.columns[name], "an amount below zero", BLANK)
            minor = np.where(below, np.nan, minor)
        divided = name in PER_ROW or (name == "sold_price" and price_is_row)
        made[name] = minor / units if divided else minor
    return made


def _signed(name: str, minor: FloatArray) -> FloatArray:
    """A column of outflows that are mostly below zero is written from the purse's side: its signs are turned."""
    turned = name in _OUTFLOWS and (minor < 0).sum() > (minor > 0).sum()
    return -minor + 0.0 if turned else minor
