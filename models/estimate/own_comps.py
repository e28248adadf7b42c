"""Which own past sales are kept to show beside a line?  Their words as postings, as plain arrays.

Sales of one product whose title, brand and category have the same words share one set of words (a "sheet").  Of a sheet
only the newest few in each condition are kept: no line ever shows more.
"""

from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

from models.estimate.blocks import kinds
from models.estimate.words import words_of
from models.values.arrays import Arrays, CodeArray, FloatArray, IntArray, TextArray

MOST = 5  # shown of each line


@dataclass(frozen=True)
class OwnComps:
    """Sold sales by sheet, then condition, the newest first; postings by word."""

    word: TextArray  # (n_words,) sorted
    idf: NDArray[np.float32]  # (n_words,)
    start: IntArray  # (n_words + 1,) first posting of each word
    sheet: NDArray[np.int32]  # (n_postings,) ascending within a word
    weight: NDArray[np.float32]  # (n_postings,) idf of the word over the length of the sheet's vector
    product: IntArray  # (n_sheets,) product of the book
    sales: IntArray  # (n_sheets + 1,) first sale of each sheet
    condition: CodeArray  # (n_sales,) code
    price: FloatArray  # (n_sales,) a unit's [minor units]
    sold_on: IntArray  # (n_sales,) days since 1970, `UNDATED` where it is not known
    days: FloatArray  # (n_sales,) from first listing to sale, NaN not known
    title: IntArray  # (n_sales,) row in `titles`
    titles: TextArray
    sourced: CodeArray  # (n_sales,) 1 bulk, 0 single find, -1 unknown
    brand: TextArray  # (n_sheets,) as the regressions spell it, "" none or not kept
    kind: TextArray  # (n_sheets,) sub-category, else category, "" none or not kept
    ref: TextArray  # (n_sales,) order's reference, else the listing's, else the row of the file

    @property
    def n_sheets(self) -> int:
        """Number of sheets."""
        return len(self.product)

    def arrays(self) -> Arrays:
        """Plain arrays under stable names."""
        return {field.name: getattr(self, field.name) for field in fields(self)}

    @staticmethod
    def from_arrays(arrays: Arrays) -> "OwnComps":
        """What `arrays` wrote."""
        blank = np.full(len(arrays["product"]), "", dtype=object)  # kept before 2026-11-27
        plain: dict[str, Any] = {field.name: arrays.get(field.name, blank) for field in fields(OwnComps)}
        return OwnComps(**plain)


UNDATED = -(2**31)


def sheet_words(title: str, brand: str, category: str) -> tuple[str, ...]:
    """Distinct words of a sale or line, sorted.

    Examples
    --------
    >>> sheet_words("Red mug, RED", "Acme", "Home > Mugs")
    ('acme', 'home', 'mug', 'mugs', 'red')
    """
    return tuple(sorted(set(words_of(f"{title} {brand} {category}"))))


def kinds_of_goods(category: TextArray, brand: TextArray) -> tuple[TextArray, TextArray]:
    """Brand and narrowest category of each row, as the regressions spell them.

    Examples
    --------
    >>> from models.values.arrays import texts
    >>> [part.tolist() for part in kinds_of_goods(texts(["Home > Mugs", "Toys"]), texts(["Acme", ""]))]
    [['acme', ''], ['mugs', 'toys']]
    """
    top, sub, name = kinds(category, brand)
    return name, np.where(sub == "", top, sub).astype(object)


def inverse_frequency(n_sheets: int, sheets_with: FloatArray) -> FloatArray:
    """How much a word tells: ln((1 + n) / (1 + with it)) + 1.

    Parameters
    ----------
    n_sheets : int
        Sheets of the history.
    sheets_with : ndarray of shape (n_words,)
        Sheets that have each word, 0 for one never seen.

    Returns
    -------
    ndarray of shape (n_words,)
        Unit free, at least 1.

    Examples
    --------
    >>> inverse_frequency(3, np.array([3.0, 0.0])).round(3).tolist()
    [1.0, 2.386]
    """
    return np.asarray(np.log((1.0 + n_sheets) / (1.0 + sheets_with)) + 1.0)
