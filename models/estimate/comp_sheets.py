"""Which sheets of own sales are near a line's words?  Exact cosines, a slice of lines at a time.

Cosine of TF-IDF vectors of distinct words (Salton & Buckley 1988, doi:10.1016/0306-4573(88)90021-0; term frequency 1).
"""

from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_matrix

from models.estimate.own_comps import MOST, UNDATED, OwnComps, inverse_frequency
from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray

LEAST_ALIKE = 0.15  # common practice, no source: below it two titles share a word that says nothing
OLDEST_DAYS = 730  # of other products: what older ones fetched tells little of today
DECIMALS = 4  # that likenesses are compared to: equal words are equally near
_ENTRIES = 2_000_000  # products of weights looked at together
_MOST_TIED = 200  # sheets as near as the last one shown
_LOOKED_AT = 25  # sheets whose sales are put in order, so that some are in the line's condition


@dataclass(frozen=True)
class Goods:
    """Brand and kind of some goods, "" where they are not known; arrays of shape (n,)."""

    brand: TextArray
    kind: TextArray

    def kin(self, row: IntArray, other: "Goods", at: IntArray) -> IntArray:
        """How near each of these goods is to one of the others: 2, 1 or 0."""
        kind, brand = _coded(self.kind, other.kind), _coded(self.brand, other.brand)
        same_kind = (kind[0][row] == kind[1][at]) & (kind[0][row] >= 0)
        same_brand = (brand[0][row] == brand[1][at]) & (brand[0][row] >= 0)
        return np.asarray(same_kind.astype(np.int64) + (same_kind & same_brand))


@dataclass(frozen=True)
class Sheets:
    """Sheets of asked lines, flat; arrays of shape (n_entries,)."""

    row: IntArray  # question
    sheet: IntArray
    likeness: FloatArray
    same: BoolArray  # of the line's own product
    kin: IntArray  # 2 of its brand and category, on which its price rests, 1 of its category, 0 of neither


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


def _coded(one: TextArray, other: TextArray) -> tuple[IntArray, IntArray]:
    """Numbers for names, the same in both; -1 for a blank."""
    number = {name: at for at, name in enumerate(sorted(({*one.tolist()} | {*other.tolist()}) - {""}))}
    first, second = ([number.get(name, -1) for name in names.tolist()] for names in (one, other))
    return np.array(first, dtype=np.int64), np.array(second, dtype=np.int64)


def nearest_sheets(
    likeness: csr_matrix, own: IntArray, product: IntArray, fresh: BoolArray, goods: tuple[Goods, Goods]
) -> Sheets:
    """The nearest sheets of other products, those of the line's own kind first; `goods` are the lines' and theirs."""
    row = np.repeat(np.arange(likeness.shape[0]), np.diff(likeness.indptr))
    near = np.flatnonzero(likeness.data >= LEAST_ALIKE)
    row, sheet, value = row[near], likeness.indices[near], likeness.data[near].astype(np.float64)
    keep = fresh[sheet] & (product[sheet] != own[row])
    row, sheet, value = row[keep], sheet[keep], np.round(value[keep], DECIMALS)
    kin = goods[0].kin(row, goods[1], sheet)
    order = np.lexsort((sheet, -value, -kin, row))
    row, sheet, value, kin = row[order], sheet[order], value[order], kin[order]
    place = places(row)
    last = np.full(likeness.shape[0], -np.inf)
    rank = kin * 2.0 + value  # a cosine is 1 at most
    last[row[place == MOST - 1]] = rank[place == MOST - 1]
    keep = ((rank >= last[row]) & (place < _MOST_TIED)) | (place < _LOOKED_AT)
    none = np.zeros(int(keep.sum()), dtype=np.bool_)
    return Sheets(row[keep], sheet[keep].astype(np.int64), value[keep], none, kin[keep])


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
    return Sheets(row, by_product[at], np.ones(len(row)), np.ones(len(row), dtype=np.bool_), np.zeros_like(row))


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
