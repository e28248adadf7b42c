"""Which kinds of goods do a line's words name?  Whole words and phrases of the tables, no guess about meaning.

An answer of no kinds means that no word matched; it never means that the goods are safe.
"""

from collections.abc import Mapping
from functools import lru_cache

from models.values.goods_kinds import GOODS_KINDS, USUALLY_NOT_LISTED
from models.values.goods_phrases import Hit, hits_in, in_doubt, kinds_of_category, plain_text, words_of
from models.values.goods_standing import Standing, beside_others, cuts, standing
from models.values.goods_together import Together

_PERHAPS = "maybe_not_listed"


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
    plain = plain_text(description)
    words = words_of(plain)
    hits, named = hits_in(words), kinds_of_category(category)
    if not hits and not named:
        return {}
    found: dict[str, str] = {}
    beside = _read(plain, words, hits, found)
    for kind, part in named:
        if kind not in beside:
            found.setdefault(kind, part)
    if in_doubt(category):
        found = _doubted(found)
    return {kind: found[kind] for kind in GOODS_KINDS if kind in found} if len(found) > 1 else found


def _read(plain: str, words: tuple[str, ...], hits: list[Hit], found: dict[str, str]) -> set[str]:
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


def _told(plain: str, words: tuple[str, ...], hit: Hit) -> Standing:
    named = beside_others(words, hit.told) if isinstance(hit.told, Together) else Standing.SURE
    if named == Standing.NO:
        return named
    alone = standing(words, hit.start, hit.end, hit.kind)
    if alone != Standing.SURE:  # a sign between words may only part what seemed to go together
        alone = standing(words, hit.start, hit.end, hit.kind, cuts(plain))
    return min(named, alone)


def _within(hit: Hit, aside: list[Hit]) -> bool:
    return any(one.kind == hit.kind and one.start <= hit.start and hit.end <= one.end for one in aside)


def _doubted(found: dict[str, str]) -> dict[str, str]:
    """In a category of toys' and pets' things, no kind is left off the list for a word alone."""
    sure = {kind: words for kind, words in found.items() if kind not in USUALLY_NOT_LISTED}
    doubted = [words for kind, words in found.items() if kind not in sure]
    return {_PERHAPS: doubted[0], **sure} if doubted else sure
