"""Which sheets of own sales are near a line's words?  Exact cosines, a slice of lines at a time.

Cosine of TF-IDF vectors of distinct words (Salton & Buckley 1988, doi:10.1016/0306-4573(88)90021-0; term frequency 1).
"""

from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_matrix

from models.estimate.own_comps import MOST, UNDATED, OwnComps, inverse_frequency
from models.values.arrays import BoolArray, FloatArray, IntArray

LEAST_ALIKE = 0.15  # common practice, no source: below it two titles share a word that says nothing
OLDEST_DAYS = 730  # of other products: what older ones fetched tells little of today
DECIMALS = 4  # that likenesses are compared to: equal words are equally near
_ENTRIES = 2_000_000  # products of weights looked at together
_MOST_TIED = 200  # sheets as near as the last one shown


@dataclass(frozen=True)
class Sheets:
    """Sheets of asked lines, flat; arrays of shape (n_entries,)."""

    row: IntArray  # question
    sheet: IntArray
    likeness: FloatArray
    same: BoolArray  # of the line's own product


def vectors_of(words: list[tuple[str, ...]], comps: OwnComps) -> csr_matrix:
    """One row a question, of length 1; a word never seen counts in the length, as the rarest would.

    Returns
    -------
    csr_matrix of shape (n_asked, n_words)
        Unit free.
    """
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


def fresh_sheets(comps: OwnComps, last_day: float) -> BoolArray:
    """Sheets that sold within two years of `last_day` [days since 1970]; those without a day count as such."""
    newest = np.maximum.reduceat(comps.sold_on, comps.sales[:-1])
    undated = np.maximum.reduceat(comps.sold_on == UNDATED, comps.sales[:-1])
    return np.asarray(undated | (newest >= last_day - OLDEST_DAYS), dtype=np.bool_)


def slices(vectors: csr_matrix, comps: OwnComps) -> list[tuple[int, int]]:
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


def nearest_sheets(likeness: csr_matrix, own: IntArray, product: IntArray, fresh: BoolArray) -> Sheets:
    """The nearest sheets of other products, with all that are as near as the last of them."""
    row = np.repeat(np.arange(likeness.shape[0]), np.diff(likeness.indptr))
    near = np.flatnonzero(likeness.data >= LEAST_ALIKE)
    row, sheet, value = row[near], likeness.indices[near], likeness.data[near].astype(np.float64)
    keep = fresh[sheet] & (product[sheet] != own[row])
    row, sheet, value = row[keep], sheet[keep], np.round(value[keep], DECIMALS)
    order = np.lexsort((sheet, -value, row))
    row, sheet, value = row[order], sheet[order], value[order]
    place = places(row)
    last = np.full(likeness.shape[0], -np.inf)
    last[row[place == MOST - 1]] = value[place == MOST - 1]
    keep = (value >= last[row]) & (place < _MOST_TIED)
    return Sheets(row[keep], sheet[keep].astype(np.int64), value[keep], np.zeros(int(keep.sum()), dtype=np.bool_))


def sheets_of(own: IntArray, product: IntArray, by_product: IntArray) -> Sheets:
    """Every sheet of each question's own product.

    Examples
    --------
    >>> product = np.array([3, 1, 3])
    >>> sheets_of(np.array([3, -1]), product, np.argsort(product, kind="stable")).sheet.tolist()
    [0, 2]
    """
    ascending = product[by_product]
    first, last = np.searchsorted(ascending, own, side="left"), np.searchsorted(ascending, own, side="right")
    row, at = spread_out(first, np.where(own >= 0, last - first, 0))
    return Sheets(row, by_product[at], np.ones(len(row)), np.ones(len(row), dtype=np.bool_))


def joined_sheets(one: Sheets, other: Sheets) -> Sheets:
    """Entries of both."""
    return Sheets(**{field: np.concatenate([getattr(one, field), getattr(other, field)]) for field in vars(one)})


def spread_out(first: IntArray, count: IntArray) -> tuple[IntArray, IntArray]:
    """Of runs of numbers: which run each number is of, and the number.

    Examples
    --------
    >>> [part.tolist() for part in spread_out(np.array([5, 9]), np.array([2, 1]))]
    [[0, 0, 1], [5, 6, 9]]
    """
    row = np.repeat(np.arange(len(count)), count)
    begun = np.cumsum(count) - count
    return row, np.repeat(first - begun, count) + np.arange(len(row))


def places(row: IntArray) -> IntArray:
    """0, 1, 2, ... within each run of equal numbers.

    Examples
    --------
    >>> places(np.array([4, 4, 7])).tolist()
    [0, 1, 0]
    """
    new = np.concatenate([[True], row[1:] != row[:-1]]) if len(row) else np.zeros(0, dtype=np.bool_)
    at = np.arange(len(row))
    return np.asarray(at - np.maximum.accumulate(np.where(new, at, 0)), dtype=np.int64)
