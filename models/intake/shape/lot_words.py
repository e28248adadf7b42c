"""What do titles, notes and the file's name say of the whole lot?  Its condition, and how much of it is listed at all.

Words that say what the goods are not ("no salvage", "customer returns are not accepted") are told, and never taken.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from pathlib import PurePath

from models.intake.cells.conditions import condition_of
from models.intake.cells.said import said_share
from models.intake.shape.lot_phrases import denies, label_in, wordings_of
from models.values.problems import Caution

_LONGEST_TOLD = 120
_UNTOLD = "No column tells the condition"


def lot_condition(
    said: Sequence[tuple[str, str]], filename: str, beside: Sequence[tuple[str, str]] = (), sheet: str = ""
) -> tuple[str, tuple[Caution, ...]]:
    """The wording that titles, else other sheets, else the file's name, give for all goods; "" for none or several.

    Parameters
    ----------
    said : sequence of (str, str)
        What says it ("title", "note"), and its words.
    filename : str
        The file's name.
    beside : sequence of (str, str)
        The same of other sheets, which are believed where they say "Condition: ..." alone.
    sheet : str
        Name of the sheet that is read, "" where the file has none.

    Examples
    --------
    >>> lot_condition([("title", "Customer Returns - Small Appliances")], "load7.csv")[0]
    'Customer Returns'
    >>> lot_condition([("title", "New Jersey warehouse")], "shelf_pulls_0412.xlsx")[0]
    'shelf pulls'
    >>> [caution.what for caution in lot_condition([("title", "Overstock and customer returns")], "a.csv")[1]]
    ["No column tells the condition, and the title names several: 'Overstock', 'customer returns'. None was taken."]
    >>> lot_condition([("title", "Home goods - excludes salvage")], "a.csv")[0]
    ''
    """
    stem = re.sub(r"[_.\-+]+", " ", PurePath(filename.partition(" in ")[0]).stem)
    names = [("file's name", text) for text in (stem, *filename.split(" in ")[1:])]
    labelled = [(where, label) for where, text in beside if (label := label_in(text))]
    denied: list[Caution] = []
    for group in (said, labelled, names):
        words = wordings_of(group)
        if words:
            return _taken(words, f" of the sheet '{sheet}'" if sheet else "")
        denied += _denied(group)
    return "", tuple(denied)


def _taken(words: Sequence[tuple[str, str]], reach: str) -> tuple[str, tuple[Caution, ...]]:
    where, word = words[0]
    if len({condition_of(word) for _, word in words}) > 1:
        where = where if len({where for where, _ in words}) == 1 else "file"
        listed = ", ".join(f"'{word}'" for _, word in words)
        what = f"{_UNTOLD}, and the {where} names several: {listed}. None was taken."
        return "", (Caution(what, "Ask which goods are in which condition."),)
    what = f"{_UNTOLD}. The {where} says '{word}': that was taken for every line{reach}."
    return word, (Caution(what, "Check that it is meant for all goods in the lot."),)


def _denied(group: Iterable[tuple[str, str]]) -> Iterator[Caution]:
    for where, text in group:
        if (label := label_in(text)) or denies(text):
            told = label or " ".join(text.split())[:_LONGEST_TOLD]
            what = f"{_UNTOLD}. The {where} says '{told}': no condition was taken from that."
            yield Caution(what, "Ask in what condition the goods are.")


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
