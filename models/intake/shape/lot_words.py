"""What do titles, notes and the file's name say of the whole lot?  Its condition, and how much of it is listed at all.

Common practice, no source: these are the trade's phrases.  A word that may mean something else ("new" in a place name,
"as is" in the terms of sale) is not believed here, though a condition column would be.
"""

import re
from collections.abc import Iterable, Sequence
from pathlib import PurePath

from models.intake.cells.conditions import condition_of
from models.intake.cells.said import said_share
from models.intake.cells.word_lists import word_list
from models.values.problems import Caution

_LABELLED = re.compile(r"\bcondition\s*[:=]\s*([^,;|\n]{2,60})", re.IGNORECASE)
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
_LONGEST_TOLD = 120


def lot_condition(titles: Sequence[str], filename: str) -> tuple[str, tuple[Caution, ...]]:
    """The wording that titles, else the file's name, give for all goods; "" where they give none or several.

    Examples
    --------
    >>> lot_condition(["Load 7", "Customer Returns - Small Appliances"], "load7.csv")[0]
    'Customer Returns'
    >>> lot_condition(["New Jersey warehouse"], "shelf_pulls_0412.xlsx")[0]
    'shelf pulls'
    >>> [caution.what for caution in lot_condition(["Overstock and customer returns"], "a.csv")[1]]
    ["No column tells the condition, and the title names several: 'Overstock', 'customer returns'. None was taken."]
    """
    stem = re.sub(r"[_.\-+]+", " ", PurePath(filename.partition(" in ")[0]).stem)
    for where, words in (("title", _wordings(titles)), ("file's name", _wordings([stem, *filename.split(" in ")[1:]]))):
        meanings = {condition_of(word) for word in words}
        if len(meanings) > 1:
            listed = ", ".join(f"'{word}'" for word in words)
            what = f"No column tells the condition, and the {where} names several: {listed}. None was taken."
            return "", (Caution(what, "Ask which goods are in which condition."),)
        if words:
            what = f"No column tells the condition. The {where} says '{words[0]}': that was taken for every line."
            return words[0], (Caution(what, "Check that it is meant for all goods in the lot."),)
    return "", ()


def part_condition(heading: str) -> str:
    """The wording that one heading gives for the goods below it; "" for none or several.

    Examples
    --------
    >>> part_condition("PALLET 2 - shelf pulls, 40 units"), part_condition("PALLET 2")
    ('shelf pulls', '')
    """
    words = _wordings([heading])
    return words[0] if len({condition_of(word) for word in words}) == 1 else ""


def _wordings(texts: Iterable[str]) -> list[str]:
    """Distinct wordings that mean a state; a labelled one goes before phrases."""
    texts = list(texts)
    labelled = [found[1].strip() for text in texts if (found := _LABELLED.search(text))]
    words = [word for word in labelled if condition_of(word) is not None]
    words = words or [match[0] for text in texts for match in _PHRASES.finditer(text)]
    return [word for word in dict.fromkeys(words) if condition_of(word) is not None]


def coverage_cautions(texts: Iterable[str]) -> tuple[Caution, ...]:
    """A caution where the words say that the list is not the whole load.

    Examples
    --------
    >>> coverage_cautions(["Manifest covers approximately 80% of the load."])[0].what
    "The list does not cover the whole load, but 80%: 'Manifest covers approximately 80% of the load.'"
    """
    for text in texts:
        share = said_share(text)
        if share:
            what = f"The list does not cover the whole load, but {share}: '{text[:_LONGEST_TOLD]}'"
            return (Caution(what, "Only what is listed was valued: the rest may be anything."),)
    return ()
