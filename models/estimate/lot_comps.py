"""Which own past sales are most like a line?  Sales of its item first, then of its product, then the nearest words.

Nearness is the cosine of the words (`comp_sheets.py`).  Sales as near are told apart by condition, the nearer price
level first, then by day, the newest first.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_matrix

from models.estimate.comp_sheets import (
    DECIMALS,
    OLDEST_DAYS,
    Sheets,
    fresh_sheets,
    joined_sheets,
    nearest_sheets,
    places,
    sheets_of,
    slices,
    spread_out,
    vectors_of,
)
from models.estimate.lot_facts import priced_condition
from models.estimate.own_comps import MOST, UNDATED, OwnComps, sheet_words
from models.estimate.price_model import CONDITION_OFFSETS
from models.values.arrays import CodeArray, FloatArray, IntArray
from models.values.lines import Lines

SAME_ITEM, SAME_PRODUCT, ALIKE = 0, 1, 2


@dataclass(frozen=True)
class LineComps:
    """Own sales beside each line, best first, -1 where there are fewer; arrays of shape (n_lines, MOST) unless said."""

    asked: IntArray  # (n_lines,), lines of one number show the same
    sale: IntArray  # row of `OwnComps`
    tier: NDArray[np.int8]  # SAME_ITEM, SAME_PRODUCT or ALIKE
    likeness: NDArray[np.float32]  # cosine 0..1; means nothing where the product is the same


def nearest_sales(lines: Lines, own: IntArray, comps: OwnComps, last_day: float) -> LineComps:
    """The own sales most like each line.

    Parameters
    ----------
    lines : Lines
        The manifest, known products in the words of their own sales.
    own : ndarray of shape (n_lines,)
        Own product of each line, -1 for none.
    comps : OwnComps
        Sales to choose from.
    last_day : float
        The end of what the history knows [days since 1970].

    Returns
    -------
    LineComps
        At most five a line; of other products only what sold within two years and shares telling words.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from models.estimate.fit.own_comps import fit_comps
    >>> from models.values.arrays import texts
    >>> from models.values.sales import Sales
    >>> sales = replace(Sales.blank(2), title=texts(["red mug", "iron pan"]), sold_price=np.array([500.0, 900.0]))
    >>> lines = replace(Lines.blank(1), description=texts(["blue mug"]))
    >>> nearest_sales(lines, np.array([-1]), fit_comps(sales, np.arange(2)), 0.0).sale.tolist()
    [[0, -1, -1, -1, -1]]
    """
    asked, of_line = _asked(lines, own)
    shown = LineComps(
        np.arange(len(asked.own)),
        np.full((len(asked.own), MOST), -1, dtype=np.int64),
        np.full((len(asked.own), MOST), ALIKE, dtype=np.int8),
        np.zeros((len(asked.own), MOST), dtype=np.float32),
    )
    if len(comps.price):
        _fill(shown, asked, comps, last_day)
    return LineComps(of_line, shown.sale[of_line], shown.tier[of_line], shown.likeness[of_line])


@dataclass(frozen=True)
class _Asked:
    """Distinct questions of a lot; arrays of shape (n_asked,)."""

    words: list[tuple[str, ...]]
    own: IntArray
    condition: CodeArray


def _asked(lines: Lines, own: IntArray) -> tuple[_Asked, IntArray]:
    """What is asked, each once, and the question of each line."""
    words: dict[tuple[str, str, str], tuple[str, ...]] = {}
    numbers: dict[tuple[tuple[str, ...], int, int], int] = {}
    said = zip(lines.description.tolist(), lines.brand.tolist(), lines.category.tolist(), strict=True)
    of_line = []
    for text, product, condition in zip(said, own.tolist(), lines.condition.tolist(), strict=True):
        if text not in words:
            words[text] = sheet_words(*text)
        of_line.append(numbers.setdefault((words[text], product, condition), len(numbers)))
    products = np.array([product for _, product, _ in numbers], dtype=np.int64)
    conditions = np.array([condition for _, _, condition in numbers], dtype=np.int8)
    return _Asked([text for text, _, _ in numbers], products, conditions), np.array(of_line, dtype=np.int64)


def _fill(shown: LineComps, asked: _Asked, comps: OwnComps, last_day: float) -> None:
    vectors = vectors_of(asked.words, comps)
    postings = csr_matrix((comps.weight, comps.sheet, comps.start), shape=(len(comps.word), comps.n_sheets))
    fresh = fresh_sheets(comps, last_day)
    by_product = np.argsort(comps.product, kind="stable")
    for first, last in slices(vectors, comps):
        alike = nearest_sheets(vectors[first:last] @ postings, asked.own[first:last], comps.product, fresh)
        sheets = joined_sheets(alike, sheets_of(asked.own[first:last], comps.product, by_product))
        _write(shown, first, _Sales.of(sheets, asked.condition[first:last], comps, last_day))


@dataclass(frozen=True)
class _Sales:
    """Sales to show, best first within a question; arrays of shape (n_entries,)."""

    row: IntArray
    sale: IntArray
    tier: IntArray
    likeness: FloatArray

    @classmethod
    def of(cls, sheets: Sheets, condition: CodeArray, comps: OwnComps, last_day: float) -> "_Sales":
        """Every sale of the sheets but for old ones of other products."""
        entry, sale = spread_out(comps.sales[sheets.sheet], np.diff(comps.sales)[sheets.sheet])
        row, same, sold_on = sheets.row[entry], sheets.same[entry], comps.sold_on[sale]
        asked, had = condition[row], comps.condition[sale]
        tier = np.where(same, np.where(asked == had, SAME_ITEM, SAME_PRODUCT), ALIKE)
        keep = np.flatnonzero(same | (sold_on == UNDATED) | (sold_on >= last_day - OLDEST_DAYS))
        apart = np.round(np.abs(CONDITION_OFFSETS[priced_condition(asked)] - CONDITION_OFFSETS[had]), DECIMALS)
        columns = (sale, -sold_on, apart, -sheets.likeness[entry], tier, row)
        order = keep[np.lexsort(tuple(column[keep] for column in columns))]
        return cls(row[order], sale[order], tier[order], sheets.likeness[entry][order])


def _write(shown: LineComps, first: int, sales: _Sales) -> None:
    place = places(sales.row)
    at = np.flatnonzero(place < MOST)
    where = first + sales.row[at], place[at]
    shown.sale[where], shown.tier[where], shown.likeness[where] = sales.sale[at], sales.tier[at], sales.likeness[at]
