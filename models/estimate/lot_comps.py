"""Which own past sales are most like a line?  Sales of its item first, then of its product, then the nearest words.

Of other products those of the line's brand and category go first, for its price rests on them, then those of its
category.  Nearness is the cosine of the words (`comp_sheets.py`).  Sales about as near are told apart by condition, the
nearer price level first, then by nearness, then by day, the newest first.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_matrix

from models.estimate.comp_sheets import (
    DECIMALS,
    OLDEST_DAYS,
    Goods,
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
from models.estimate.own_comps import MOST, UNDATED, OwnComps, kinds_of_goods, sheet_words
from models.estimate.price_model import CONDITION_OFFSETS
from models.values.arrays import CodeArray, FloatArray, IntArray, texts
from models.values.lines import Lines

SAME_ITEM, SAME_PRODUCT, ALIKE = 0, 1, 2
BANDS = (0.4, 0.7)  # of likeness, as the words say it: a little alike, alike, much alike


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
    goods: Goods


def _asked(lines: Lines, own: IntArray) -> tuple[_Asked, IntArray]:
    """What is asked, each once, and the question of each line."""
    words: dict[tuple[str, str, str], tuple[str, ...]] = {}
    numbers: dict[tuple[tuple[str, ...], int, int, str, str], int] = {}
    brand, kind = kinds_of_goods(lines.category, lines.brand)
    said = zip(lines.description.tolist(), lines.brand.tolist(), lines.category.tolist(), strict=True)
    of_line = []
    rows = zip(said, own.tolist(), lines.condition.tolist(), brand.tolist(), kind.tolist(), strict=True)
    for text, *rest in rows:
        if text not in words:
            words[text] = sheet_words(*text)
        of_line.append(numbers.setdefault((words[text], *rest), len(numbers)))
    products = np.array([one[1] for one in numbers], dtype=np.int64)
    conditions = np.array([one[2] for one in numbers], dtype=np.int8)
    goods = Goods(texts([one[3] for one in numbers]), texts([one[4] for one in numbers]))
    return _Asked([one[0] for one in numbers], products, conditions, goods), np.array(of_line, dtype=np.int64)


def _fill(shown: LineComps, asked: _Asked, comps: OwnComps, last_day: float) -> None:
    vectors = vectors_of(asked.words, comps)
    postings = csr_matrix((comps.weight, comps.sheet, comps.start), shape=(len(comps.word), comps.n_sheets))
    fresh = fresh_sheets(comps, last_day)
    by_product = np.argsort(comps.product, kind="stable")
    theirs = Goods(comps.brand, comps.kind)
    for first, last in slices(vectors, comps):
        goods = Goods(asked.goods.brand[first:last], asked.goods.kind[first:last]), theirs
        alike = nearest_sheets(vectors[first:last] @ postings, asked.own[first:last], comps.product, fresh, goods)
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
        likeness, kin = sheets.likeness[entry], sheets.kin[entry]
        columns = (sale, -sold_on, -likeness, apart, -np.digitize(likeness, BANDS), -kin, tier, row)
        order = keep[np.lexsort(tuple(column[keep] for column in columns))]
        return cls(row[order], sale[order], tier[order], sheets.likeness[entry][order])


def _write(shown: LineComps, first: int, sales: _Sales) -> None:
    place = places(sales.row)
    at = np.flatnonzero(place < MOST)
    where = first + sales.row[at], place[at]
    shown.sale[where], shown.tier[where], shown.likeness[where] = sales.sale[at], sales.tier[at], sales.likeness[at]
