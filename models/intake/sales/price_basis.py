"""Does a sold price stand for a unit or for its whole row?  The seller says; where totals are likely, we ask."""

from collections.abc import Mapping

import numpy as np

from models.intake.cells.amounts import Amounts
from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.grid import written_cell
from models.intake.sales.price_recalled import asked_again, price_shown
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import IntArray
from models.values.questions import SOLD_PRICE_IS, Choice, Question

_OF_ROWS = frozenset(word_list("total; subtotal; sum; row; line; gesamt; gesamtpreis; summe; importe; totale; totaal"))
_CLOSE = 0.005  # share by which a product may be off
_MOST, _FEW = 0.8, 3  # of the rows of several units, and how many of them, that a column beside the price decides by


def price_is_row(
    table: Table, quantity: IntArray, amounts: Mapping[str, Amounts], mapping: Mapping[str, str], findings: Findings
) -> bool:
    """True if sold prices are for whole rows.

    Parameters
    ----------
    table : Table
        The file.
    quantity : ndarray of shape (n_rows,)
        Units; where no row has several, it makes no difference.
    amounts : mapping
        Money columns [minor units].
    mapping : mapping
        `sold_price_is` decides where it is given.
    findings : Findings
        Asks where the header speaks of totals, or prices of several units are those of one times their number.
    """
    if shown := price_shown(mapping, quantity, amounts):
        question = _question(table, (quantity > 1) & ~findings.aside)
        findings.ask(asked_again(question, mapping[SOLD_PRICE_IS], shown))
    if SOLD_PRICE_IS in mapping or "sold_price" not in table.columns:
        return mapping.get(SOLD_PRICE_IS) == "row"
    several = (quantity > 1) & ~findings.aside
    if several.any() and (_says_rows(table) or _grows(quantity, amounts)):
        findings.ask(_question(table, several))
    return False


def _says_rows(table: Table) -> bool:
    return bool(_OF_ROWS.intersection(plain_words(table.headers["sold_price"]).split()))


def _grows(quantity: IntArray, amounts: Mapping[str, Amounts]) -> bool:
    """Prices of rows of several units are above what a unit was asked for, most of them."""
    if "asking_price" not in amounts:
        return False
    price, asked = amounts["sold_price"].minor, amounts["asking_price"].minor
    rows = (quantity > 1) & (price > 0) & (asked > 0)
    if rows.sum() < _FEW:
        return False
    above = price[rows] > asked[rows] * (1 + _CLOSE)
    within = price[rows] <= asked[rows] * quantity[rows] * (1 + _CLOSE)
    return bool(np.mean(above & within) >= _MOST)


def _question(table: Table, several: np.ndarray) -> Question:
    header = table.headers["sold_price"]
    cells = [written_cell(table.columns["sold_price"][row]) for row in np.flatnonzero(several)[:3].tolist()]
    choices = (Choice("row", "for all units of the row together"), Choice("unit", "for one unit"))
    words = f"Some rows are of several units. Is '{header}' the price of one unit, or of all units of the row together?"
    return Question(SOLD_PRICE_IS, words, choices, tuple(cells))
