"""Which lines will this shop not sell at all?  The seller's own list of brands, categories and words."""

import re
from collections.abc import Sequence

import numpy as np

from models.values.arrays import BoolArray
from models.values.lines import Lines
from models.values.settings import Never


def never_lines(lines: Lines, never: Never) -> BoolArray:
    """Lines that the seller's `never` settings name.

    Parameters
    ----------
    lines : Lines
        The manifest's lines.
    never : Never
        Brands count as a whole, in the brand column or, where that is blank, as words of the description; categories
        as any part of a line's path, or its beginning; words as whole words of the description.  Case does not count.

    Returns
    -------
    ndarray of shape (n_lines,)
        True for lines never listed here.

    Examples
    --------
    >>> from models.values.arrays import texts
    >>> blank, number, one = texts(["", ""]), np.full(2, np.nan), np.ones(2, dtype=np.int64)
    >>> lines = Lines(
    ...     no=one, row=one, description=texts(["Car seat, grey", "Oscar seating"]), brand=blank, category=blank,
    ...     condition=np.zeros(2, dtype=np.int8), quantity=one, tag_each=number, sku=blank, gtin=blank,
    ...     weight_kg=number, pallet=blank, assorted=np.zeros(2, dtype=bool))
    >>> never_lines(lines, Never(words=("car seat",))).tolist()
    [True, False]
    """
    brands = {_plain(brand) for brand in never.brands}
    in_brand = np.array([_plain(brand) in brands for brand in lines.brand], dtype=bool)
    unbranded = np.array([not _plain(brand) for brand in lines.brand], dtype=bool)
    in_category = np.array([_in_categories(path, never.categories) for path in lines.category], dtype=bool)
    named = _holding(lines, never.words) | (unbranded & _holding(lines, never.brands))
    never_here: BoolArray = in_brand | in_category | named
    return never_here


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def _parts(path: str) -> list[str]:
    return [_plain(part) for part in path.split(">") if part.strip()]


def _in_categories(path: str, categories: Sequence[str]) -> bool:
    parts = _parts(path)
    wanted = [_parts(category) for category in categories]
    return any(parts[: len(one)] == one or (len(one) == 1 and one[0] in parts) for one in wanted if one)


def _holding(lines: Lines, words: Sequence[str]) -> BoolArray:
    if not words:
        return np.zeros(len(lines), dtype=bool)
    either = "|".join(re.escape(_plain(word)) for word in words)
    pattern = re.compile(rf"(?<!\w)(?:{either})(?!\w)")
    return np.array([pattern.search(_plain(text)) is not None for text in lines.description], dtype=bool)
