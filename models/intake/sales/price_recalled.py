"""Does a file contradict what an earlier one's sold prices were said to be for?  Asking prices beside them tell."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from models.intake.cells.amounts import Amounts
from models.values.arrays import IntArray
from models.values.questions import SOLD_PRICE_IS, Question, is_recalled

_CLOSE = 0.005  # share by which a price may be above what was asked
_NEAR = 0.75  # of what was asked: above it a price is of as many units; common practice, no source
_MOST, _FEW = 0.8, 3  # of the rows of several units, and how many of them, that decide
_WORDS = {"unit": "one unit", "row": "all units of its row", "order": "the whole order"}


def price_shown(mapping: Mapping[str, str], quantity: IntArray, amounts: Mapping[str, Amounts]) -> str:
    """What the file shows its sold prices to be for, where an earlier file's answer says otherwise; else "".

    Parameters
    ----------
    mapping : mapping
        `sold_price_is`, and whether it was said of an earlier file.
    quantity : ndarray of shape (n_rows,)
        Units.
    amounts : mapping
        Money columns [minor units].

    Examples
    --------
    >>> price_shown({"sold_price_is": "row", "recalled": "sold_price_is"}, np.array([2, 3, 1]), {})
    ''
    """
    if not is_recalled(mapping, SOLD_PRICE_IS) or not {"sold_price", "asking_price"} <= set(amounts):
        return ""
    price, asked = amounts["sold_price"].minor, amounts["asking_price"].minor
    rows = (quantity > 1) & (price > 0) & (asked > 0)
    if rows.sum() < _FEW:
        return ""
    for basis, units in (("unit", 1), ("row", quantity[rows])):
        whole = asked[rows] * units
        near = (price[rows] > _NEAR * whole) & (price[rows] <= whole * (1 + _CLOSE))
        if np.mean(near) >= _MOST and basis != mapping[SOLD_PRICE_IS]:
            return basis
    return ""


def asked_again(question: Question, said: str, shown: str) -> Question:
    """The question with the reason why an earlier answer is not followed.

    Examples
    --------
    >>> asked_again(Question("sold_price_is", "Which is it?", ()), "row", "unit").why
    'beside the asking prices, those of this file are for one unit'
    """
    why = f"beside the asking prices, those of this file are for {_WORDS[shown]}"
    words = f"An earlier answer took sold prices to be for {_WORDS.get(said, said)}, but {why}. {question.words}"
    return replace(question, words=words, guess=shown, why=why)
