"""Which kinds of goods do a line's words name?  Whole words and phrases of the tables, no guess about meaning.

An answer of no kinds means that no word matched; it never means that the goods are safe.
"""

import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from functools import cache, lru_cache

from models.values.goods_beside import AFTER, BEFORE, BESIDE, COUNTS, WITH_BESIDE
from models.values.goods_kinds import GOODS_KINDS
from models.values.goods_words import CATEGORIES, WORDS

Phrases = Mapping[str, tuple[tuple[tuple[str, ...], str, bool], ...]]  # first word -> (phrase, kind, only beside)
_WORD = re.compile(r"[^\W_]+")
_CONTAINERS = frozenset({"case", "box", "bag"})


@lru_cache(maxsize=20_000)  # a long lot repeats its goods
def goods_named(description: str, category: str = "") -> Mapping[str, str]:
    """Kinds that the words of a line name, each with what named it.

    Parameters
    ----------
    description : str
        Any of the tables' words as whole words; case, accents and a last -s or -es do not count.
    category : str
        A path "A > B": a whole part of it that the tables name tells a kind too, unless the description names
        something that only goes with such goods.

    Returns
    -------
    mapping of str to str
        Keys of `GOODS_KINDS`, in its order, and the words found; empty where no word matched.

    Examples
    --------
    >>> dict(goods_named("Bike HELMET, size M")), dict(goods_named("Helmet bag"))
    ({'helmet': 'helmet'}, {})
    >>> dict(goods_named("Grey, 2 pcs", "Baby > Car Seats"))
    {'child_seat': 'car seats'}
    >>> dict(goods_named("Blue mug"))
    {}
    """
    words = _words(description)
    hits = list(_hits(words))
    aside = [hit for hit in hits if hit[3]]
    beside = {kind for start, end, kind, _ in aside if end - start > 1}
    found: dict[str, str] = {}
    for start, end, kind, passed in hits:
        if passed or any(one == kind and first <= start and end <= last for first, last, one, _ in aside):
            continue
        if kind in WITH_BESIDE and _only_goes_with(words, start, end):
            beside.add(kind)
        else:
            found.setdefault(kind, " ".join(words[start:end]))
    for kind, part in _of_category(category):
        if kind not in beside:
            found.setdefault(kind, part)
    return {kind: found[kind] for kind in GOODS_KINDS if kind in found} if found else found


def _words(text: str) -> tuple[str, ...]:
    plain = text.casefold()
    if not plain.isascii():
        plain = "".join(sign for sign in unicodedata.normalize("NFKD", plain) if not unicodedata.combining(sign))
    return tuple(_WORD.findall(plain))


def _hits(words: tuple[str, ...]) -> Iterator[tuple[int, int, str, bool]]:
    """Where a phrase stands, of which kind, and whether it is only beside such goods; longer phrases first."""
    phrases = _phrases()
    for start, word in enumerate(words):
        for phrase, kind, passed in phrases.get(word, ()):
            if len(phrase) == 1 or words[start : start + len(phrase)] == phrase:
                yield start, start + len(phrase), kind, passed


def _only_goes_with(words: tuple[str, ...], start: int, end: int) -> bool:
    """Whether the next or the last word makes it something for such goods: a bag for it, a toy of it."""
    before, after, then = words[start - 1] if start else "", *(*words[end : end + 2], "", "")[:2]
    counts = after in _CONTAINERS and (then in _listed(COUNTS) or then.isdigit())
    return before in _listed(BEFORE) or (after in _endings(AFTER) and not counts)


@lru_cache(maxsize=1_000)
def _of_category(path: str) -> tuple[tuple[str, str], ...]:
    named = (" ".join(word for word in _words(part) if word != "and") for part in path.split(">"))
    return tuple((kind, part) for part in named for kind in _category_kinds().get(part, ()))


@cache
def _phrases() -> Phrases:
    found: dict[str, list[tuple[tuple[str, ...], str, bool]]] = {}
    for table, passed in ((WORDS, False), (BESIDE, True)):
        for kind, languages in table.items():
            for phrase in {form for listed in languages.values() for one in _listed(listed) for form in _plural(one)}:
                found.setdefault(phrase[0], []).append((phrase, kind, passed))
    return {first: tuple(sorted(some, key=lambda one: (-len(one[0]), one))) for first, some in found.items()}


def _plural(text: str) -> Iterable[tuple[str, ...]]:
    *first, last = _words(text)
    return [(*first, last + ending) for ending in ("", "s", "es")]


@cache
def _listed(texts: str) -> frozenset[str]:
    return frozenset(one.strip() for one in texts.split(","))


@cache
def _endings(texts: str) -> frozenset[str]:
    return frozenset(one + ending for one in _listed(texts) for ending in ("", "s", "es"))


@cache
def _category_kinds() -> Mapping[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for kind, listed in CATEGORIES.items():
        for text in _listed(listed):
            name = " ".join(word for word in _words(text) if word != "and")
            found[name] = (*found.get(name, ()), kind)
    return found
