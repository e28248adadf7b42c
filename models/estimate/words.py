"""Which words does a title have?  Lower case, no punctuation; pairs are words that follow each other."""

import itertools
import re
import unicodedata

_WORD = re.compile(r"[^\W_]+")


def words_of(title: str) -> list[str]:
    """Words of a title in its order, lower case, compatibility forms folded, punctuation dropped.

    Examples
    --------
    >>> words_of("Kettle, 1.7L (STEEL)")
    ['kettle', '1', '7l', 'steel']
    """
    return _WORD.findall(unicodedata.normalize("NFKC", title).casefold())


def sorted_words(title: str) -> str:
    """The normalised words that tell products apart: sorted, joined by one space; "" where a title has no word.

    Examples
    --------
    >>> sorted_words("Steel Kettle!") == sorted_words("kettle - STEEL")
    True
    """
    return " ".join(sorted(words_of(title)))


def terms_of(title: str) -> list[str]:
    """Each distinct word and pair of following words, as the regressions see a title.

    Examples
    --------
    >>> terms_of("red mug red")
    ['mug', 'mug red', 'red', 'red mug']
    """
    words = words_of(title)
    return sorted({*words, *(f"{first} {second}" for first, second in itertools.pairwise(words))})
