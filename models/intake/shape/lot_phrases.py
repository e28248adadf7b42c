"""Which words of a title, note or heading name a condition, and which of them are taken back?

Common practice, no source: these are the trade's phrases.  A word that may mean something else ("new" in a place name,
"as is" in the terms of sale) is not believed here, though a condition column would be.
"""

import re
from collections.abc import Iterable, Iterator, Sequence

from models.intake.cells.conditions import condition_of, says_condition_alone
from models.intake.cells.said import without_counts
from models.intake.cells.word_lists import word_list

_LABELLED = re.compile(r"\bcondition\s*[:=]\s*([^;|\n]{2,80})", re.IGNORECASE)
_PHRASES = re.compile(
    r"\b(?:"
    + "|".join(
        word_list(r"""
    (?:untested |raw |unchecked |tested |mixed )?(?:customer|store|retail|online) returns?; (?:un)?tested returns?;
    raw returns; untested; shelf[ -]?pulls?; (?:new )?overstocks?; (?:new )?surplus; brand[ -]new; new in box;
    new with tags; closeouts?; open[ -]?box; like[ -]new; refurb(?:ished)?; renewed; salvage; for parts;
    scratch (?:and|&|n) dent; pre[ -]?owned; tested (?:and )?working; neuware; retouren; kundenretouren; ungetestet;
    ungeprüft; gebraucht(?:ware)?; retours clients?; devoluciones
""")
    )
    + r")\b",
    re.IGNORECASE,
)
# Beside a phrase in the same words they say that not all goods are so; alone they say nothing of the lot.
_ALSO = re.compile(r"\b(?:used|second[ -]?hand|returns?|damaged|defective|broken)\b", re.IGNORECASE)
_CLAUSES = re.compile(r"[.;!?|\n]+|\s[-\u2013\u2014]\s|\s{2,}")
# What denies a phrase, or keeps it from being meant for all goods.
_DENIES = re.compile(
    r"(?<!\d)(?!100)\d{1,3}(?:\.\d+)?\s*%|\b(?:mostly|mainly|some|partly|partially|may|maybe|might|could|possibl[ey]|"
    r"almost|nearly|majority)\b|"
    r"\b(?:no(?!\s*#?\d)|non|not|never|without|cannot|\w+n['\u2019]t|exclud\w*|except\w*|other than|instead of|"
    r"nicht|kein\w*|ohne|pas|sans|sauf|ne|sin|excepto|senza|esclus\w*|niet|geen|zonder)\b",
    re.IGNORECASE,
)


def part_condition(heading: str) -> str:
    """The wording that one heading gives for the goods below it; "" for none or several.

    Examples
    --------
    >>> part_condition("PALLET 2 - shelf pulls, 40 units"), part_condition("PALLET 2"), part_condition("NEW ITEMS")
    ('shelf pulls', '', 'NEW ITEMS')
    """
    words = [word for _, word in wordings_of([("", heading)])]
    words = words or list(filter(says_condition_alone, map(without_counts, _CLAUSES.split(heading))))
    return words[0] if len({condition_of(word) for word in words}) == 1 else ""


def wordings_of(said: Iterable[tuple[str, str]]) -> list[tuple[str, str]]:
    """Distinct wordings that mean a state, and what says them; a labelled one goes before phrases.

    Parameters
    ----------
    said : iterable of (str, str)
        What says it, and its words.

    Examples
    --------
    >>> wordings_of([("title", "Untested customer returns, no salvage"), ("note", "All sales final")])
    [('title', 'Untested customer returns')]
    """
    said = list(said)
    words = {label: where for where, text in said if condition_of(label := label_in(text)) is not None}
    if not words:
        for where, text in reversed(said):  # what is said first stands first
            phrases = [phrase for phrase, denied in _phrases(text) if not denied and condition_of(phrase) is not None]
            also = [phrase for phrase, denied in _also(text, phrases) if not denied] if phrases else []
            words = dict.fromkeys([*phrases, *also], where) | words
    return [(where, word) for word, where in words.items()]


def label_in(text: str) -> str:
    """The words behind "Condition:", up to the first comma where no more of them is needed; "" for none.

    Examples
    --------
    >>> label_in("Load 7, condition: Open Box, 40 units"), label_in("Condition: New, missing remote")
    ('Open Box', 'New, missing remote')
    """
    found = _LABELLED.search(text)
    label = without_counts(found[1]) if found else ""
    first = label.partition(",")[0]
    return first if condition_of(first) == condition_of(label) else label


def denies(text: str) -> bool:
    """True for words that say in which condition goods are not.

    Examples
    --------
    >>> denies("Customer returns are not accepted"), denies("Pallet no. 7 - customer returns"), denies("Not heavy")
    (True, False, False)
    """
    return any(denied for _, denied in _phrases(text))


def _phrases(text: str, rule: re.Pattern[str] = _PHRASES) -> Iterator[tuple[str, bool]]:
    """Each phrase, and whether a word in the same breath, or earlier in the clause, denies it for all goods."""
    for clause in _CLAUSES.split(text):
        for found in rule.finditer(clause):
            end = clause.find(",", found.end())
            yield found[0], bool(_DENIES.search(clause[: end if end >= 0 else len(clause)]))


def _also(text: str, phrases: Sequence[str]) -> Iterator[tuple[str, bool]]:
    """Words that say something worse of some goods, outside of the phrases."""
    for phrase in phrases:
        text = text.replace(phrase, " ")
    meanings = {condition_of(phrase) for phrase in phrases}
    return ((word, denied) for word, denied in _phrases(text, _ALSO) if condition_of(word) not in meanings)
