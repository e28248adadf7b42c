"""Is a word of a line the thing itself, something for it or a toy of it?  Read from the words beside it."""

import re
from enum import IntEnum
from functools import cache

from models.values.goods_beside import (
    ADJECTIVES,
    AFTER,
    BEFORE,
    BETWEEN,
    COUNTS,
    JOINS,
    NEAR,
    PERHAPS_AFTER,
    PERHAPS_BEFORE,
    PERHAPS_NEAR,
    PETS,
    SHADES,
    SIZES,
    SOLD_IN_BOXES,
    WITH_BESIDE,
)  # fmt: skip
from models.values.goods_kinds import USUALLY_NOT_LISTED
from models.values.goods_together import Together

_PIECES = re.compile(r"[^\W_]+|[,;+/|(]|\s[-\u2013]\s")
_SIGN = re.compile(r"[,;+/|(]|\s[-\u2013]\s")
_CONTAINERS = frozenset({"case", "box", "bag"})
_DIGITS = "0123456789"
_WITH_BESIDE = frozenset(WITH_BESIDE)


@cache
def listed(texts: str) -> frozenset[str]:
    """The words of a table's text."""
    return frozenset(one.strip() for one in texts.split(",") if one.strip())


def _endings(texts: str) -> frozenset[str]:
    return frozenset(one + ending for one in listed(texts) for ending in ("", "s", "es"))


_AFTER, _BETWEEN, _PERHAPS_AFTER, _PERHAPS_NEAR, _PETS = (
    _endings(texts) for texts in (AFTER, BETWEEN, PERHAPS_AFTER, PERHAPS_NEAR, PETS)
)
_BEFORE, _PERHAPS_BEFORE, _JOINS, _COUNTS, _SIZES, _SHADES, _ADJECTIVES = (
    listed(texts) for texts in (BEFORE, PERHAPS_BEFORE, JOINS, COUNTS, SIZES, SHADES, ADJECTIVES)
)
_FOR_IT = _AFTER | _PERHAPS_AFTER


class Standing(IntEnum):
    """How surely a word names the thing itself."""

    NO = 0
    PERHAPS = 1
    SURE = 2


def cuts(plain: str) -> frozenset[int]:
    """Numbers of the words that a sign parts from the word before: what follows is said of something else."""
    if not _SIGN.search(plain):
        return frozenset()
    found, word = set(), 0
    for piece in _PIECES.findall(plain):
        if piece[0].isalnum():
            word += 1
        else:
            found.add(word)
    return frozenset(found)


def beside_others(words: tuple[str, ...], told: Together) -> Standing:
    """How surely a phrase that needs others beside it names its kind in this line."""
    there = {*words, *(word.lstrip(_DIGITS) for word in words)}
    if there & listed(told.without):
        return Standing.NO
    if told.sure == "*" or there & listed(told.sure):
        return Standing.SURE
    return Standing.PERHAPS if told.unsure == "*" or there & listed(told.unsure) else Standing.NO


def standing(words: tuple[str, ...], start: int, end: int, kind: str, parted: frozenset[int] = frozenset()) -> Standing:
    """How surely the words from `start` up to `end` are the thing itself; see `cuts` for `parted`."""
    found = Standing.SURE
    if kind in _WITH_BESIDE:
        found = _beside(words, start, end, kind, parted)
    if found == Standing.SURE and kind in USUALLY_NOT_LISTED and _near(words, start, end):
        return Standing.PERHAPS
    return found


def _beside(words: tuple[str, ...], start: int, end: int, kind: str, parted: frozenset[int]) -> Standing:
    found = Standing.SURE
    if start and start not in parted:
        found = _before(words, start)
    if end < len(words) and end not in parted and words[start] not in _ADJECTIVES:
        found = min(found, _after(words, end, kind, parted))
    if "for" not in words:
        return found
    return min(found, _for(words, start, end, parted, kind in USUALLY_NOT_LISTED))


def _before(words: tuple[str, ...], start: int) -> Standing:
    if words[start - 1] in _BEFORE:
        return Standing.NO
    return Standing.PERHAPS if words[start - 1] in _PERHAPS_BEFORE else Standing.SURE


def _after(words: tuple[str, ...], end: int, kind: str, parted: frozenset[int]) -> Standing:
    """Right behind it, or behind words such as `display` and `travel`: a helmet's display case."""
    if words[end] == "light" and words[end + 1 : end + 2] and words[end + 1] in _SHADES:
        return Standing.SURE
    at = end
    while at < len(words) and at not in parted:
        if words[at] in _AFTER:
            return _contained(words, at, kind)
        if words[at] not in _BETWEEN:
            break
        at += 1
    return Standing.PERHAPS if words[end] in _PERHAPS_AFTER else Standing.SURE


def _contained(words: tuple[str, ...], at: int, kind: str) -> Standing:
    """A helmet case is none, but a case of 6 helmets counts them."""
    if words[at] not in _CONTAINERS:
        return Standing.NO
    then, next_then = (*words[at + 1 : at + 3], "", "")[:2]
    if then.lstrip(_DIGITS) in _COUNTS or (then.isdigit() and next_then in _COUNTS):
        return Standing.SURE
    if then.isdigit() and words[at - 1].endswith("s"):
        return Standing.SURE
    is_open = then.isdigit() and not (next_then.isdigit() or next_then in _SIZES)
    return Standing.PERHAPS if is_open or kind in SOLD_IN_BOXES else Standing.NO


def _for(words: tuple[str, ...], start: int, end: int, parted: frozenset[int], kept: bool) -> Standing:
    """A mount for a bike helmet is none, nor is a car seat for dogs; a gift for a child with a helmet may be one."""
    if words[end : end + 1] == ("for",) and set(words[end + 1 : end + 3]) & _PETS:
        return Standing.NO
    for at in range(start - 1, max(start - NEAR, 0) - 1, -1):
        if at + 1 in parted:
            break
        if words[at] == "for":
            is_goods_for_it = not _FOR_IT.isdisjoint(words[max(at - NEAR, 0) : at])
            return Standing.NO if is_goods_for_it or (at == start - 1 and not kept) else Standing.PERHAPS
    return Standing.SURE


def _near(words: tuple[str, ...], start: int, end: int) -> bool:
    """Whether a toy's or a part's word stands near, and not as what comes along with it."""
    if _PERHAPS_NEAR.isdisjoint(words):
        return False
    for at in range(max(start - NEAR, 0), min(end + NEAR, len(words))):
        if not start <= at < end and words[at] in _PERHAPS_NEAR:
            joined = words[end:at] if at >= end else ()  # a doll with a helmet has a doll's helmet
            if _JOINS.isdisjoint(joined) and "and" not in words[at + 1 : start]:
                return True
    return False
