"""Which goods say in their own name that they are not in the lot?  "Clock *** REMOVED ***", "VOID - Clock".

Common practice, no source.  Only words that stand apart before or behind the name count.
"""

import re
from collections.abc import Iterable, Sequence
from itertools import compress
from operator import itemgetter

from models.intake.cells.word_lists import word_list
from models.intake.grid import Cell
from models.intake.shape.gone_words import Gone

_OUT = tuple(
    f"{gone} {the}{place}"
    for gone in word_list("removed from; pulled from; missing from; taken out of; not in; not part of")
    for the in ("", "the ", "this ")
    for place in word_list("lot; load; pallet; sale; shipment; truck; truckload; delivery; auction")
)
_OF_LINE = frozenset(  # said of a whole line, seldom of a part of the goods
    word_list("""
    void; voided; cancelled; canceled; item cancelled; item canceled; line cancelled; line canceled; deleted; withdrawn;
    do not ship; do not include; do not count; short shipped; short-shipped; storniert; annulé; annulée; anulado;
    anulada; cancelado; cancelada; annullato; annullata; geannuleerd; anulowano; anulowane; anulowany
""")
    + _OUT
)
_OF_PART = frozenset(  # of parts too: "Laptop, disk - removed"
    word_list("""
    removed; pulled; excluded; not included; not shipped; missing; sold; entfernt; retiré; retirée; retirado; retirada;
    rimosso; rimossa; verwijderd
""")
)
_PIECES = re.compile(r"\s[-–—]+\s|\s*[*~:;|()\[\]<>/]+\s*")
_STRUCK_THROUGH = re.compile(r"~~[^~]+~~")
_WORD_END = re.compile(r"[^\w-]")
_SIGNS, _SIGN = " .!", frozenset("*~:;|()[]<>/-–—.! ")
_KEY = 4  # letters
_BEGIN, _LAST = itemgetter(slice(_KEY)), itemgetter(slice(-_KEY, None))


def _spelled(keys: Iterable[str]) -> frozenset[str]:
    """In small letters, capitals, and as a sentence or a heading begins."""
    return frozenset(way for key in keys for way in (key, key.upper(), key.capitalize(), key.title()))


_STARTS = _spelled(phrase[:_KEY] for phrase in _OF_LINE | _OF_PART)
_ENDS = _spelled(phrase[-_KEY:] for phrase in _OF_LINE | _OF_PART)
_FIRST = frozenset(phrase.split()[0] for phrase in _OF_LINE | _OF_PART)


def struck_names(names: Sequence[str]) -> dict[Cell, Gone]:
    """Those of many names that say so; their first and last letters tell most of them apart.

    Examples
    --------
    >>> struck_names(["Mug", "Jug (VOID)", "Avoid"])
    {'Jug (VOID)': <Gone.SURE: 'sure'>}
    """
    ends, begins = list(map(_LAST, names)), list(map(_BEGIN, names))  # few of them differ, so each is asked once
    at_end = {end for end in set(ends) if end in _ENDS or end[-1:] in _SIGN}
    begun = {begin for begin in set(begins) if begin in _STARTS or begin[:1] in _SIGN}
    near = set(compress(names, map(at_end.__contains__, ends))) if at_end else set()
    if begun:
        some = compress(names, map(begun.__contains__, begins))
        near.update(name for name in some if name[:1] in _SIGN or _first_word(name) in _FIRST)
    return {name: said for name in near if (said := struck_in_name(name)) is not Gone.NO}


def _first_word(name: str) -> str:
    return _WORD_END.split(name, 1)[0].casefold()


def struck_in_name(name: str) -> Gone:
    """What one name says of its line.

    Examples
    --------
    >>> struck_in_name("Clock *** REMOVED ***"), struck_in_name("VOID"), struck_in_name("~~Mirror~~")
    (<Gone.SURE: 'sure'>, <Gone.SURE: 'sure'>, <Gone.SURE: 'sure'>)
    >>> struck_in_name("Laptop - removed"), struck_in_name("Lamp - shade not included"), struck_in_name("Pulled pork")
    (<Gone.MAYBE: 'maybe'>, <Gone.NO: 'no'>, <Gone.NO: 'no'>)
    """
    pieces = [piece.strip(_SIGNS) for piece in _PIECES.split(name)]
    pieces = [piece for piece in pieces if piece]
    if not pieces or _STRUCK_THROUGH.fullmatch(name.strip()):
        return Gone.SURE if pieces else Gone.NO
    first, last = (" ".join(piece.casefold().split()) for piece in (pieces[0], pieces[-1]))
    if first in _OF_LINE or last in _OF_LINE:
        return Gone.SURE
    if first not in _OF_PART and last not in _OF_PART:
        return Gone.NO
    before = len(pieces) > 1 and first in _OF_PART
    shouted = pieces[-1].isupper() and (len(pieces) == 1 or any(map(str.islower, name)))
    return Gone.SURE if before or shouted else Gone.MAYBE
