"""Which of several names in a file did a seller mean?  A part is enough where it fits one of them alone."""

import re
from collections.abc import Sequence

from models.intake.cells.word_lists import word_list

_WORDS = re.compile(r"[^\W\d_]+|\d+")
_OF_ANY = frozenset(
    word_list("lot; load; truck; sheet; tab; pallet; no; nr; number; los; losnummer; lote; lotto; blatt; the")
)
_SHORTEST_PART = 3  # letters that may stand for a longer word
_MOST_NAMED = 5


def names_meant(answer: str, names: Sequence[str]) -> list[str]:
    """The names an answer fits best: the very name, its number alone, its words, or the beginnings of its words.

    Parameters
    ----------
    answer : str
        What the seller said.
    names : sequence of str
        What stands in the file.

    Returns
    -------
    list of str
        One, or several spellings of one, where it is clear; several where it is not, none where none fits.

    Examples
    --------
    >>> lots = ["Lot 882 - Tools", "Lot 883 - Toys", "Lot 8 - Tools and toys"]
    >>> names_meant("882", lots), names_meant("LOT 8", lots), names_meant("tool", lots)
    (['Lot 882 - Tools'], ['Lot 8 - Tools and toys'], ['Lot 882 - Tools', 'Lot 8 - Tools and toys'])
    """
    said = _words(answer)
    own = _own(said)
    for fits in (
        lambda words: words == said,
        lambda words: _own(words) == own,
        lambda words: set(own) <= set(words),
        lambda words: all(any(_begins(word, part) for word in words) for part in own),
    ):
        found = [name for name in names if said and fits(_words(name))]
        if found:
            return found
    return []


def is_clear(meant: Sequence[str]) -> bool:
    """True for one name, or several spellings of one.

    Examples
    --------
    >>> is_clear(["LOT 7", "Lot #7"]), is_clear(["Lot 7", "Lot 8"]), is_clear([])
    (True, False, False)
    """
    return len({_own(_words(name)) for name in meant}) == 1


def not_clear(answer: str, meant: Sequence[str], things: str) -> str:
    """Why an answer could not be used, in words that end where a question begins.

    Examples
    --------
    >>> not_clear("9", [], "lots"), not_clear("tools", ["Lot 1 tools", "Lot 2 tools"], "lots")
    ("'9' is none of the lots in the file. ", "'tools' fits 2 lots: 'Lot 1 tools', 'Lot 2 tools'. ")
    """
    if not meant:
        return f"'{answer}' is none of the {things} in the file. "
    listed = ", ".join(f"'{name}'" for name in meant[:_MOST_NAMED]) + (", ..." if len(meant) > _MOST_NAMED else "")
    return f"'{answer}' fits {len(meant)} {things}: {listed}. "


def _words(text: str) -> tuple[str, ...]:
    """Letters and digits apart, so that "LOT882" is "Lot 882"; zeros in front of a number say nothing."""
    return tuple(word.lstrip("0") or "0" if word.isdecimal() else word for word in _WORDS.findall(text.casefold()))


def _own(words: tuple[str, ...]) -> tuple[str, ...]:
    """Without the words that every name may have, unless there are no others."""
    return tuple(word for word in words if word not in _OF_ANY) or words


def _begins(word: str, part: str) -> bool:
    return word == part or (len(part) >= _SHORTEST_PART and part.isalpha() and word.startswith(part))
