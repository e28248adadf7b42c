"""Which kinds of goods do a line's words name?  Whole words and phrases of the tables, no guess about meaning.

An answer of no kinds means that no word matched; it never means that the goods are safe.
"""

import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from functools import cache, lru_cache
from typing import NamedTuple

from models.values.goods_beside import BESIDE
from models.values.goods_kinds import GOODS_KINDS, USUALLY_NOT_LISTED
from models.values.goods_standing import Standing, beside_others, cuts, listed, standing
from models.values.goods_together import TOGETHER, Together
from models.values.goods_words import CATEGORIES, UNSURE_CATEGORIES, WORDS

_WORD = re.compile(r"[^\W_]+")
_ALONE = ","  # stands for the second word of a phrase of one; no word is a sign
_PERHAPS = "maybe_not_listed"


class _Phrase(NamedTuple):
    words: tuple[str, ...]
    kind: str
    told: bool | Together  # whether it names the kind, is only beside it, or needs others


class _Hit(NamedTuple):
    start: int
    end: int
    kind: str
    told: bool | Together


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
        Keys of `GOODS_KINDS`, in its order, and the words found; empty where no word matched.  Words that leave open
        whether it is the thing, of a kind that usually is not listed, tell `maybe_not_listed` instead.

    Examples
    --------
    >>> dict(goods_named("Bike HELMET, size M")), dict(goods_named("Helmet bag"))
    ({'helmet': 'helmet'}, {})
    >>> dict(goods_named("Knight helmet, costume"))
    {'maybe_not_listed': 'helmet'}
    >>> dict(goods_named("Grey, 2 pcs", "Baby > Car Seats"))
    {'child_seat': 'car seats'}
    >>> dict(goods_named("Blue mug"))
    {}
    """
    plain = _plain(description)
    words = tuple(_WORD.findall(plain))
    hits, named = _hits(words), _of_category(category)
    if not hits and not named:
        return {}
    found: dict[str, str] = {}
    beside = _read(plain, words, hits, found)
    for kind, part in named:
        if kind not in beside:
            found.setdefault(kind, part)
    if _in_doubt(category):
        found = _doubted(found)
    return {kind: found[kind] for kind in GOODS_KINDS if kind in found} if len(found) > 1 else found


def _read(plain: str, words: tuple[str, ...], hits: list[_Hit], found: dict[str, str]) -> set[str]:
    """Add the kinds that the words name; return those that the line only goes with."""
    aside = [hit for hit in hits if hit.told is False]
    beside = {hit.kind for hit in aside if hit.end - hit.start > 1}
    perhaps = ""
    for hit in hits:
        if hit.told is False or (aside and _within(hit, aside)):
            continue
        told = _told(plain, words, hit)
        if told == Standing.SURE or (told == Standing.PERHAPS and hit.kind not in USUALLY_NOT_LISTED):
            found.setdefault(hit.kind, " ".join(words[hit.start : hit.end]))
            continue
        if told == Standing.PERHAPS:
            perhaps = perhaps or " ".join(words[hit.start : hit.end])
        if hit.told is True:
            beside.add(hit.kind)
    if perhaps and found.keys().isdisjoint(USUALLY_NOT_LISTED):
        found[_PERHAPS] = perhaps
    return beside


def _told(plain: str, words: tuple[str, ...], hit: _Hit) -> Standing:
    named = beside_others(words, hit.told) if isinstance(hit.told, Together) else Standing.SURE
    if named == Standing.NO:
        return named
    alone = standing(words, hit.start, hit.end, hit.kind)
    if alone != Standing.SURE:  # a sign between words may only part what seemed to go together
        alone = standing(words, hit.start, hit.end, hit.kind, cuts(plain))
    return min(named, alone)


def _within(hit: _Hit, aside: list[_Hit]) -> bool:
    return any(one.kind == hit.kind and one.start <= hit.start and hit.end <= one.end for one in aside)


def _doubted(found: dict[str, str]) -> dict[str, str]:
    """In a category of toys' and pets' things, no kind is left off the list for a word alone."""
    sure = {kind: words for kind, words in found.items() if kind not in USUALLY_NOT_LISTED}
    doubted = [words for kind, words in found.items() if kind not in sure]
    return {_PERHAPS: doubted[0], **sure} if doubted else sure


def _plain(text: str) -> str:
    plain = text.casefold()
    if not plain.isascii():
        plain = "".join(sign for sign in unicodedata.normalize("NFKD", plain) if not unicodedata.combining(sign))
    return plain.replace("&", " and ") if "&" in plain else plain


def _words(text: str) -> tuple[str, ...]:
    return tuple(_WORD.findall(_plain(text)))


def _hits(words: tuple[str, ...]) -> list[_Hit]:
    """Where a phrase stands, and of which kind; longer phrases first."""
    phrases = _phrases()
    found: list[_Hit] = []
    if phrases.keys().isdisjoint(words):
        return found
    for start, word in enumerate(words):
        if word in phrases:
            by_second = phrases[word]
            then = words[start + 1] if start + 1 < len(words) else ""
            for second in (then, _ALONE):
                if second in by_second:
                    found += [
                        _Hit(start, start + len(phrase), kind, told)
                        for phrase, kind, told in by_second[second]
                        if len(phrase) < 3 or words[start : start + len(phrase)] == phrase
                    ]
    return found


@lru_cache(maxsize=1_000)
def _of_category(path: str) -> tuple[tuple[str, str], ...]:
    return tuple((kind, part) for part in _parts(path) for kind in _category_kinds().get(part, ()))


@lru_cache(maxsize=1_000)
def _in_doubt(path: str) -> bool:
    return not _doubtful().isdisjoint(_parts(path))


@cache
def _doubtful() -> frozenset[str]:
    return frozenset(part for one in listed(UNSURE_CATEGORIES) for part in _parts(one))


def _parts(path: str) -> list[str]:
    return [" ".join(word for word in _words(part) if word != "and") for part in path.split(">")]


@cache
def _phrases() -> Mapping[str, Mapping[str, list[_Phrase]]]:
    """All phrases by their first and second word."""
    found: dict[str, dict[str, list[_Phrase]]] = {}
    every = {*_of_table(WORDS, True), *_of_table(BESIDE, False), *_together()}
    for phrase in sorted(every, key=lambda one: (-len(one.words), one.words, one.kind, str(one.told))):
        first, second = (*phrase.words, _ALONE)[:2]
        found.setdefault(first, {}).setdefault(second, []).append(phrase)
    return found


def _of_table(table: Mapping[str, Mapping[str, str]], told: bool) -> Iterator[_Phrase]:
    for kind, languages in table.items():
        for texts in languages.values():
            yield from (_Phrase(form, kind, told) for one in listed(texts) for form in _plural(one))


def _together() -> Iterator[_Phrase]:
    for row in TOGETHER:
        for kind in row.kinds:
            yield from (_Phrase(form, kind, row) for one in listed(row.phrases) for form in _plural(one))


def _plural(text: str) -> Iterable[tuple[str, ...]]:
    *first, last = _words(text)
    return [(*first, last + ending) for ending in ("", "s", "es")]


@cache
def _category_kinds() -> Mapping[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for kind, texts in CATEGORIES.items():
        for name in {part for one in listed(texts) for part in _parts(one)}:
            found[name] = (*found.get(name, ()), kind)
    return found
