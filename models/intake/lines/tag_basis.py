"""Is a tag of one unit, or of the whole line?  What the cells show outweighs a header that does not say.

Two sorts of evidence: goods that stand there in several quantities, whose unit tag is the same and whose line tag
grows with them; and the file's own total, which is the sum of line tags.
"""

from collections.abc import Sequence
from enum import StrEnum

import numpy as np

from models.intake.cells.price_words import says_each, says_line
from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray
from models.values.problems import StatedTotals
from models.values.questions import TAG_IS, Choice, Question

_CLOSE = 0.005  # share by which amounts differ that are the same but for rounding
_ENOUGH = 3  # goods that stand there in several quantities
_CLEAR = 0.9  # share of them that agree
_APART = 0.02  # of a total: closer sums cannot be told apart


class Basis(StrEnum):
    """What one amount is for."""

    UNIT = "unit"
    LINE = "line"


_WHOSE = {Basis.UNIT: "for one unit", Basis.LINE: "for all units of the line together"}


def basis_shown(
    tags: FloatArray, quantity: IntArray, goods: TextArray, stated: Sequence[StatedTotals]
) -> tuple[Basis | None, Basis | None]:
    """What the cells of one tag column show: by goods in several quantities, and by what the file says of its own sum.

    Parameters
    ----------
    tags : ndarray of shape (n_rows,)
        Amounts [minor units], NaN for blank.
    quantity : ndarray of shape (n_rows,)
        Units; 0 for rows that are set aside.
    goods : ndarray of shape (n_rows,)
        What names the goods of each row, one line of words, "" for nothing.
    stated : sequence of StatedTotals
        What the file says of its own sum.

    Returns
    -------
    tuple
        By goods and by total; None where nothing is shown.

    Examples
    --------
    >>> tags, units = np.array([500.0, 1000, 300, 900, 200, 800, 700]), np.array([1, 2, 1, 3, 1, 4, 1])
    >>> basis_shown(tags, units, np.array(["mug", "mug", "jug", "jug", "pot", "pot", "pan"], dtype=object), ())
    (<Basis.LINE: 'line'>, None)
    """
    usable = (quantity > 0) & (tags > 0)
    if not (usable & (quantity > 1)).any():
        return None, None
    whole = [one.tags for one in stated if one.tags is not None and one.covers is None]
    return _by_goods(tags, quantity, goods, usable), basis_of_total(tags, quantity, whole)


def _by_goods(tags: FloatArray, quantity: IntArray, goods: TextArray, usable: BoolArray) -> Basis | None:
    names = list(map(str.casefold, goods.tolist()))
    different = dict.fromkeys(("", *names))
    if len(different) > len(names):  # no goods stand there twice
        return None
    codes = {name: code for code, name in enumerate(different)}
    code = np.array(list(map(codes.__getitem__, names)), dtype=np.int64)
    index = np.flatnonzero(usable & (code > 0))
    index = index[np.argsort(code[index], kind="stable")]
    if not len(index):
        return None
    starts = np.flatnonzero(np.diff(code[index], prepend=-1))
    units = quantity[index]
    several = np.minimum.reduceat(units, starts) < np.maximum.reduceat(units, starts)
    votes = {
        Basis.UNIT: int(_alike(tags[index], starts)[several].sum()),
        Basis.LINE: int(_alike(tags[index] / units, starts)[several].sum()),
    }
    best = max(votes, key=lambda basis: votes[basis])
    return best if votes[best] >= max(_ENOUGH, _CLEAR * sum(votes.values())) else None


def _alike(amounts: FloatArray, starts: IntArray) -> BoolArray:
    """Of each group that begins at `starts`: whether its amounts are the same but for rounding."""
    most = np.maximum.reduceat(amounts, starts)
    alike: BoolArray = most - np.minimum.reduceat(amounts, starts) <= np.maximum(1.0, _CLOSE * most)
    return alike


def basis_of_total(tags: FloatArray, quantity: IntArray, totals: Sequence[float]) -> Basis | None:
    """Whether totals are the sum of the amounts themselves, or of quantity x amount.

    Parameters
    ----------
    tags : ndarray of shape (n_rows,)
        Amounts [minor units], NaN for blank.
    quantity : ndarray of shape (n_rows,)
        Units; 0 for rows that are set aside.
    totals : sequence of float
        What the file says the whole is [minor units].

    Returns
    -------
    Basis or None
        None where no total is near one of the sums, or both sums are nearly the same.

    Examples
    --------
    >>> tags, units = np.array([500.0, 300]), np.array([10, 1])
    >>> basis_of_total(tags, units, [800.0]), basis_of_total(tags, units, [5300.0]), basis_of_total(tags, units, [1.0])
    (<Basis.LINE: 'line'>, <Basis.UNIT: 'unit'>, None)
    """
    usable = (quantity > 0) & (tags > 0)
    sums = {Basis.LINE: float(tags[usable].sum()), Basis.UNIT: float((tags * quantity)[usable].sum())}
    if abs(sums[Basis.LINE] - sums[Basis.UNIT]) <= _APART * sums[Basis.UNIT]:
        return None
    near = [
        basis for basis, total in sums.items() if any(abs(total - told) <= _CLOSE * abs(told) + 1 for told in totals)
    ]
    return near[0] if len(near) == 1 else None


def basis_of(header: str, by_goods: Basis | None, by_total: Basis | None) -> Basis | None:
    """The basis of a column, None where its header and its cells contradict each other and it must be asked.

    Notes
    -----
    A total under a column of unit tags is often their meaningless sum, so that it alone contradicts no header.

    Examples
    --------
    >>> basis_of("Retail", Basis.LINE, None), basis_of("Unit Retail", None, Basis.LINE)
    (<Basis.LINE: 'line'>, <Basis.UNIT: 'unit'>)
    >>> print(basis_of("Unit Retail", Basis.LINE, None))
    None
    """
    said = Basis.LINE if says_line(header) else Basis.UNIT if says_each(header) else None
    shown = {basis for basis in (by_goods, by_total if said is None else None) if basis is not None}
    meant = shown if said is None else shown | {said}
    if len(meant) > 1:
        return None
    return meant.pop() if meant else Basis.UNIT


def basis_question(headers: str, shown: Basis | None = None) -> Question:
    """What to ask where nothing decides, or where cells show another basis than an earlier answer said.

    Parameters
    ----------
    headers : str
        Of the columns, as they are to be named.
    shown : Basis or None
        What the cells show against the answer that was given for an earlier file.

    Examples
    --------
    >>> basis_question("'Retail'").key
    'tag_is'
    """
    words = f"Are the amounts in {headers} for one unit, or for all units of the line together?"
    choices = (Choice("unit", "for one unit"), Choice("line", "for all units of the line together"))
    if shown is None:
        return Question(TAG_IS, words, choices)
    meant, said = _WHOSE[shown], _WHOSE[Basis.LINE if shown is Basis.UNIT else Basis.UNIT]
    why = f"the lines or totals of this file show that the amounts in {headers} are {meant}"
    words = f"An earlier answer took the amounts in {headers} to be {said}, but {why}. Which are they?"
    return Question(TAG_IS, words, choices, guess=shown.value, confidence=_CLEAR, why=why)
