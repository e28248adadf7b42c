"""Where do the tables' phrases stand in a text?  Found by their first two words, so that a long table costs little."""

import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from functools import cache, lru_cache
from typing import NamedTuple

from models.values.goods_beside import BESIDE
from models.values.goods_standing import listed
from models.values.goods_together import TOGETHER, Together
from models.values.goods_words import CATEGORIES, UNSURE_CATEGORIES, WORDS

_WORD = re.compile(r"[^\W_]+")
_ALONE = ","  # stands for the second word of a phrase of one; no word is a sign


class _Phrase(NamedTuple):
    words: tuple[str, ...]
    kind: str
    told: bool | Together  # whether it names the kind, is only beside it, or needs others


class Hit(NamedTuple):
    """Where a phrase stands: its first word, one past its last, its kind, and what it tells."""

    start: int
    end: int
    kind: str
    told: bool | Together


def plain_text(text: str) -> str:
    """Lower case without accents, `&` as a word."""
    plain = text.casefold()
    if not plain.isascii():
        plain = "".join(sign for sign in unicodedata.normalize("NFKD", plain) if not unicodedata.combining(sign))
    return plain.replace("&", " and ") if "&" in plain else plain


def words_of(plain: str) -> tuple[str, ...]:
    """The words of a plain text."""
    return tuple(_WORD.findall(plain))


def hits_in(words: tuple[str, ...]) -> list[Hit]:
    """Where a phrase stands, and of which kind; longer phrases first."""
    phrases = _phrases()
    found: list[Hit] = []
    if phrases.keys().isdisjoint(words):
        return found
    for start, word in enumerate(words):
        if word in phrases:
            by_second = phrases[word]
            then = words[start + 1] if start + 1 < len(words) else ""
            for second in (then, _ALONE):
                if second in by_second:
                    found += [
                        Hit(start, start + len(phrase), kind, told)
                        for phrase, kind, told in by_second[second]
                        if len(phrase) < 3 or words[start : start + len(phrase)] == phrase
                    ]
    return found


@lru_cache(maxsize=1_000)
def kinds_of_category(path: str) -> tuple[tuple[str, str], ...]:
    """Kinds that whole parts of a path name, each with the part."""
    return tuple((kind, part) for part in _parts(path) for kind in _category_kinds().get(part, ()))


@lru_cache(maxsize=1_000)
def in_doubt(path: str) -> bool:
    """Whether it is a category of toys' and pets' things."""
    return not _doubtful().isdisjoint(_parts(path))


@cache
def _doubtful() -> frozenset[str]:
    return frozenset(part for one in listed(UNSURE_CATEGORIES) for part in _parts(one))


def _parts(path: str) -> list[str]:
    return [" ".join(word for word in words_of(plain_text(part)) if word != "and") for part in path.split(">")]


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
    *first, last = words_of(plain_text(text))
    return [(*first, last + ending) for ending in ("", "s", "es")]


@cache
def _category_kinds() -> Mapping[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for kind, texts in CATEGORIES.items():
        for name in {part for one in listed(texts) for part in _parts(one)}:
            found[name] = (*found.get(name, ()), kind)
    return found
