"""Does a sold price stand for a unit or for its whole row?  The seller says; where totals are likely, we ask."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from models.intake.cells.amounts import Amounts
from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.grid import written_cell
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import IntArray
from models.values.questions import SOLD_PRICE_IS, Choice, Question, is_recalled

_OF_ROWS = frozenset(word_list("total; subtotal; sum; row; line; gesamt; gesamtpreis; summe; importe; totale; totaal"))
_CLOSE = 0.005  # share by which a product may be off
_NEAR = 0.75  # of an asking price: above it a price is of one unit; common practice, no source
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
    several = (quantity > 1) & ~findings.aside
    if SOLD_PRICE_IS in mapping or "sold_price" not in table.columns:
        said_row = mapping.get(SOLD_PRICE_IS) == "row"
        if is_recalled(mapping, SOLD_PRICE_IS) and several.any() and _contradicted(said_row, quantity, amounts):
            findings.ask(_asked_again(_question(table, several), said_row))
        return said_row
    if several.any() and (_says_rows(table) or _grows(quantity, amounts)):
        findings.ask(_question(table, several))
    return False


def _says_rows(table: Table) -> bool:
    return bool(_OF_ROWS.intersection(plain_words(table.headers["sold_price"]).split()))


def _contradicted(said_row: bool, quantity: IntArray, amounts: Mapping[str, Amounts]) -> bool:
    """Beside what a unit was asked for, prices of several units show the other way."""
    return _stays(quantity, amounts) if said_row else _grows(quantity, amounts)


def _asked_again(question: Question, said_row: bool) -> Question:
    said, shown = ("the whole row", "one unit") if said_row else ("one unit", "the whole row")
    why = f"beside the asking prices, those of this file are for {shown}"
    words = f"An earlier answer took sold prices to be for {said}, but {why}. {question.words}"
    return replace(question, words=words, guess="unit" if said_row else "row", why=why)


def _stays(quantity: IntArray, amounts: Mapping[str, Amounts]) -> bool:
    """Prices of rows of several units are near what one unit was asked for, most of them."""
    if "asking_price" not in amounts:
        return False
    price, asked = amounts["sold_price"].minor, amounts["asking_price"].minor
    rows = (quantity > 1) & (price > 0) & (asked > 0)
    near = (price[rows] > _NEAR * asked[rows]) & (price[rows] <= asked[rows] * (1 + _CLOSE))
    return bool(rows.sum() >= _FEW and np.mean(near) >= _MOST)


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
