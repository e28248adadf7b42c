"""Which lines will this shop not sell at all?  The seller's own list, and kinds that usually are not listed."""

import re
from collections.abc import Sequence

import numpy as np

from models.values.arrays import BoolArray
from models.values.conditions import CONDITIONS, UNKNOWN
from models.values.goods_kinds import GOODS_KINDS
from models.values.goods_matching import goods_named
from models.values.lines import Lines
from models.values.settings import Never


def never_lines(lines: Lines, never: Never) -> BoolArray:
    """Lines that are not sold here: those on the seller's own list, and those of kinds that usually are not listed.

    Parameters
    ----------
    lines : Lines
        The manifest's lines.
    never : Never
        What the shop will not sell, and which usual kinds it does list.

    Returns
    -------
    ndarray of shape (n_lines,)
        True for lines never listed here, unless the seller chooses to for a line.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from models.values.arrays import texts
    >>> lines = replace(Lines.blank(3), description=texts(["Bike helmet", "Sword", "Mug"]))
    >>> never_lines(lines, Never(words=("sword",))).tolist()
    [True, True, False]
    >>> never_lines(lines, Never(listed_anyway=("helmet",))).tolist()
    [False, False, False]
    """
    return own_never(lines, never) | usually_not_listed(lines, never.listed_anyway)


def usually_not_listed(lines: Lines, listed_anyway: Sequence[str] = ()) -> BoolArray:
    """Lines of kinds that are not listed by default, in their condition.

    Parameters
    ----------
    lines : Lines
        The manifest's lines; a line of unknown condition counts only where a kind is not listed in any condition.
    listed_anyway : sequence of str
        Keys of `GOODS_KINDS` that this shop lists.

    Returns
    -------
    ndarray of shape (n_lines,)
        True for lines of such kinds.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from models.values.arrays import texts
    >>> two = replace(Lines.blank(2), description=texts(["Lipstick"] * 2), condition=np.array([0, 1], dtype=np.int8))
    >>> usually_not_listed(two).tolist()
    [False, True]
    """
    rows = zip(lines.description.tolist(), lines.category.tolist(), lines.condition.tolist(), strict=True)
    return np.array([_usual(*row, listed_anyway) for row in rows], dtype=bool)


def _usual(description: str, category: str, condition: int, listed_anyway: Sequence[str]) -> bool:
    kinds = (kind for kind in goods_named(description, category) if kind not in listed_anyway)
    return any(is_not_listed(kind, condition) for kind in kinds)


def is_not_listed(kind: str, condition: int) -> bool:
    """Whether goods of a kind are not listed by default, in the condition of that code.

    Examples
    --------
    >>> is_not_listed("mattress", 0), is_not_listed("mattress", 3), is_not_listed("mattress", UNKNOWN)
    (False, True, False)
    """
    held = GOODS_KINDS[kind].not_listed
    return len(held) == len(CONDITIONS) if condition == UNKNOWN else CONDITIONS[condition] in held


def own_never(lines: Lines, never: Never) -> BoolArray:
    """Lines that the seller's own `never` settings name.

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
    >>> own_never(lines, Never(words=("car seat",))).tolist()
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
