"""Which own past sales are most like a line?  Sales of its item first, then of its product, then the nearest words.

Nearness is the cosine of TF-IDF vectors of distinct words (Salton & Buckley 1988, doi:10.1016/0306-4573(88)90021-0;
term frequency 1).  Sales as near are told apart by condition, the nearer price level first, then by day, newest first.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_matrix

from models.estimate.lot_facts import priced_condition
from models.estimate.own_comps import MOST, UNDATED, OwnComps, inverse_frequency, sheet_words
from models.estimate.price_model import CONDITION_OFFSETS
from models.values.arrays import BoolArray, CodeArray, FloatArray, IntArray
from models.values.lines import Lines

SAME_ITEM, SAME_PRODUCT, ALIKE = 0, 1, 2
LEAST_ALIKE = 0.15  # common practice, no source: below it two titles share a word that says nothing
OLDEST_DAYS = 730  # of other products: what older ones fetched tells little of today
_ENTRIES = 2_000_000  # products of weights looked at together
_DECIMALS = 4  # that likenesses are compared to: equal words are equally near
_MOST_TIED = 200  # sheets as near as the last one shown


@dataclass(frozen=True)
class LineComps:
    """Own sales beside each line, best first, -1 where there are fewer; arrays of shape (n_lines, MOST)."""

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
        np.full((len(asked.own), MOST), -1, dtype=np.int64),
        np.full((len(asked.own), MOST), ALIKE, dtype=np.int8),
        np.zeros((len(asked.own), MOST), dtype=np.float32),
    )
    if len(comps.price):
        _fill(shown, asked, comps, last_day)
    return LineComps(shown.sale[of_line], shown.tier[of_line], shown.likeness[of_line])


@dataclass(frozen=True)
class _Asked:
    """Distinct questions of a lot; arrays of shape (n_asked,)."""

    words: list[tuple[str, ...]]
    own: IntArray
    condition: CodeArray


@dataclass(frozen=True)
class _Sheets:
    """Sheets of asked lines, flat; arrays of shape (n_entries,)."""

    row: IntArray  # question
    sheet: IntArray
    likeness: FloatArray
    same: BoolArray  # of the line's own product


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
    vectors = _vectors(asked.words, comps)
    postings = csr_matrix((comps.weight, comps.sheet, comps.start), shape=(len(comps.word), comps.n_sheets))
    fresh = _fresh(comps, last_day)
    by_product = np.argsort(comps.product, kind="stable")
    for first, last in _slices(vectors, comps):
        alike = _nearest(vectors[first:last] @ postings, asked.own[first:last], comps.product, fresh)
        sheets = _joined(alike, _own_sheets(asked.own[first:last], comps.product, by_product))
        _write(shown, first, _Sales.of(sheets, asked.condition[first:last], comps, last_day))


def _vectors(words: list[tuple[str, ...]], comps: OwnComps) -> csr_matrix:
    """One row a question, of length 1; a word never seen counts in the length, as the rarest would."""
    place = {word: number for number, word in enumerate(comps.word.tolist())}
    never = float(inverse_frequency(comps.n_sheets, np.zeros(1))[0])
    at = [[place[word] for word in own if word in place] for own in words]
    column = np.array([number for own in at for number in own], dtype=np.int64)
    row = np.repeat(np.arange(len(words)), [len(own) for own in at])
    idf = comps.idf[column].astype(np.float64)
    missing = np.array([len(own) - len(known) for own, known in zip(words, at, strict=True)])
    length = np.sqrt(np.bincount(row, idf**2, minlength=len(words)) + missing * never**2)
    start = np.concatenate([[0], np.cumsum([len(own) for own in at])])
    value = (idf / length[row]).astype(np.float32)
    return csr_matrix((value, column, start), shape=(len(words), len(comps.word)))


def _fresh(comps: OwnComps, last_day: float) -> BoolArray:
    """Sheets that sold lately; those without a day count as such."""
    newest = np.maximum.reduceat(comps.sold_on, comps.sales[:-1])
    undated = np.maximum.reduceat(comps.sold_on == UNDATED, comps.sales[:-1])
    return np.asarray(undated | (newest >= last_day - OLDEST_DAYS), dtype=np.bool_)


def _slices(vectors: csr_matrix, comps: OwnComps) -> list[tuple[int, int]]:
    """Runs of questions whose products of weights fit into memory together."""
    entries = np.diff(comps.start)[vectors.indices]
    total = np.concatenate([[0], np.cumsum(entries)])[vectors.indptr]
    found, first, n = [], 0, vectors.shape[0]
    while first < n:
        last = int(np.searchsorted(total, total[first] + _ENTRIES, side="right")) - 1
        last = min(max(last, first + 1), n)
        found.append((first, last))
        first = last
    return found


def _nearest(likeness: csr_matrix, own: IntArray, product: IntArray, fresh: BoolArray) -> _Sheets:
    """The nearest sheets of other products, with all that are as near as the last of them."""
    row = np.repeat(np.arange(likeness.shape[0]), np.diff(likeness.indptr))
    near = np.flatnonzero(likeness.data >= LEAST_ALIKE)
    row, sheet, value = row[near], likeness.indices[near], likeness.data[near].astype(np.float64)
    keep = fresh[sheet] & (product[sheet] != own[row])
    row, sheet, value = row[keep], sheet[keep], np.round(value[keep], _DECIMALS)
    order = np.lexsort((sheet, -value, row))
    row, sheet, value = row[order], sheet[order], value[order]
    place = _places(row)
    last = np.full(likeness.shape[0], -np.inf)
    last[row[place == MOST - 1]] = value[place == MOST - 1]
    keep = (value >= last[row]) & (place < _MOST_TIED)
    return _Sheets(row[keep], sheet[keep].astype(np.int64), value[keep], np.zeros(int(keep.sum()), dtype=np.bool_))


def _own_sheets(own: IntArray, product: IntArray, by_product: IntArray) -> _Sheets:
    """Every sheet of each question's own product."""
    ascending = product[by_product]
    first, last = np.searchsorted(ascending, own, side="left"), np.searchsorted(ascending, own, side="right")
    row, at = _spread(first, np.where(own >= 0, last - first, 0))
    return _Sheets(row, by_product[at], np.ones(len(row)), np.ones(len(row), dtype=np.bool_))


def _joined(one: _Sheets, other: _Sheets) -> _Sheets:
    return _Sheets(**{field: np.concatenate([getattr(one, field), getattr(other, field)]) for field in vars(one)})


@dataclass(frozen=True)
class _Sales:
    """Sales to show, best first within a question; arrays of shape (n_entries,)."""

    row: IntArray
    sale: IntArray
    tier: IntArray
    likeness: FloatArray

    @classmethod
    def of(cls, sheets: _Sheets, condition: CodeArray, comps: OwnComps, last_day: float) -> "_Sales":
        """Every sale of the sheets but for old ones of other products."""
        entry, sale = _spread(comps.sales[sheets.sheet], np.diff(comps.sales)[sheets.sheet])
        row, same, sold_on = sheets.row[entry], sheets.same[entry], comps.sold_on[sale]
        asked, had = condition[row], comps.condition[sale]
        tier = np.where(same, np.where(asked == had, SAME_ITEM, SAME_PRODUCT), ALIKE)
        keep = np.flatnonzero(same | (sold_on == UNDATED) | (sold_on >= last_day - OLDEST_DAYS))
        apart = np.round(np.abs(CONDITION_OFFSETS[priced_condition(asked)] - CONDITION_OFFSETS[had]), _DECIMALS)
        columns = (sale, -sold_on, apart, -sheets.likeness[entry], tier, row)
        order = keep[np.lexsort(tuple(column[keep] for column in columns))]
        return cls(row[order], sale[order], tier[order], sheets.likeness[entry][order])


def _write(shown: LineComps, first: int, sales: _Sales) -> None:
    place = _places(sales.row)
    at = np.flatnonzero(place < MOST)
    where = first + sales.row[at], place[at]
    shown.sale[where], shown.tier[where], shown.likeness[where] = sales.sale[at], sales.tier[at], sales.likeness[at]


def _spread(first: IntArray, count: IntArray) -> tuple[IntArray, IntArray]:
    """Of runs of numbers: which run each number is of, and the number."""
    row = np.repeat(np.arange(len(count)), count)
    begun = np.cumsum(count) - count
    return row, np.repeat(first - begun, count) + np.arange(len(row))


def _places(row: IntArray) -> IntArray:
    """0, 1, 2, ... within each run of equal numbers."""
    new = np.concatenate([[True], row[1:] != row[:-1]]) if len(row) else np.zeros(0, dtype=np.bool_)
    at = np.arange(len(row))
    return np.asarray(at - np.maximum.accumulate(np.where(new, at, 0)), dtype=np.int64)
