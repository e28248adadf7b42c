"""Which of our six states does a wording mean?  Exact words, then rules; what neither knows stays unknown.

Common practice, no source: the trade has no standard.  A bare grade ("B", "Grade 2") belongs to whoever gave it and is
never guessed.  A good state is believed only where every word beside it is known to leave it as it is: "new, missing
remote" and "mostly new" are not new.  What a "not" takes back is read as what then is left.
"""

import re
import unicodedata
from collections.abc import Sequence

from models.intake.cells.condition_words import HARMLESS, LINK, NOT, PACKAGING, RULES, TAKEN_BACK, UNWRAPPED, WORDINGS
from models.intake.cells.reading import Reading, Readings, read_column
from models.intake.grid import Cell, plain_text
from models.values.conditions import UNKNOWN, Condition, code_of

_SPLIT = re.compile(r"[^\w;]+")
_STOPS = re.compile(r"[.,;:!|()/]+|\s[-\u2013\u2014]+\s")  # no "not" reaches beyond
_WITHOUT = re.compile(r"\bw/o\b")


def _clauses(wording: str) -> str:
    """Small letters without accents, a semicolon between clauses."""
    text = unicodedata.normalize("NFKD", wording.replace("_", " ")).casefold()
    text = "".join(character for character in text if not unicodedata.combining(character))
    text = _STOPS.sub(" ; ", _WITHOUT.sub("without ", text))
    return " ".join(_SPLIT.sub(" ", text).split())


def _plain(clauses: str) -> str:
    return " ".join(clauses.replace(";", " ").split())


_EXACT = {_plain(_clauses(word)): condition for condition, words in WORDINGS.items() for word in words}
_CODE = 3  # digits
_DOUBTED = "?"  # somebody's own doubt
_GOOD = (Condition.SEALED, Condition.OPENED, Condition.WORKS)
_NOT = re.compile(rf"\b(?:{NOT}|free)\b")
_LACK = re.compile(rf"\b(?:{NOT}|missing|lacks|lacking|fehl\w*|manqu\w*|falta\w*|manca\w*|ontbre\w*|brak\w*)\b")
_EITHER = re.compile(rf"\b({NOT})({LINK} \w+) (?:or|nor|oder|ou|noch|ni|ne) (?!{NOT}\b)")
_TAKEN_BACK = tuple((re.compile(rf"\b(?:{NOT}{LINK} {words}|{words} free)\b"), left) for words, left in TAKEN_BACK)
_KNOWN = (HARMLESS | {UNWRAPPED}).union(
    word
    for wording, condition in _EXACT.items()
    if condition in (*_GOOD, Condition.WORN)
    for word in wording.split()
    if not _LACK.fullmatch(word)
)


def condition_of(wording: str) -> Condition | None:
    """The state a wording means, None if it says nothing known.

    Parameters
    ----------
    wording : str
        As the file has it.

    Examples
    --------
    >>> [condition_of(word) for word in ("NEW - Open Box", "Not working / parts", "Used: very good", "Grade B")]
    [<Condition.OPENED: 'opened'>, <Condition.SALVAGE: 'salvage'>, <Condition.WORKS: 'works'>, None]
    >>> [condition_of(word) for word in ("Not sealed", "New, not damaged", "Mostly new", "New?")]
    [<Condition.OPENED: 'opened'>, <Condition.SEALED: 'sealed'>, None, None]
    """
    clauses = _clauses(wording)
    condition = _EXACT.get(_plain(clauses))
    if condition is None:
        words = _as_left(clauses)
        condition = next((condition for condition, rule in RULES if rule.search(words)), None)
        if condition in _GOOD and not all(map(_leaves_it, _plain(words).split())):
            return None
        if condition is Condition.WORN and _LACK.search(words):
            return None
    return None if condition in _GOOD and _DOUBTED in wording else condition


def says_condition_alone(wording: str) -> bool:
    """True where a wording means a state and every word of it belongs to that.

    Examples
    --------
    >>> [says_condition_alone(word) for word in ("SALVAGE ITEMS", "Brand new", "Used cars", "Kitchen")]
    [True, True, False, False]
    """
    if condition_of(wording) is None:
        return False
    words = _clauses(wording)
    if _plain(words) in _EXACT:
        return True
    for _, rule in RULES:
        words = rule.sub(" ", words)
    return all(map(_leaves_it, _plain(words).split()))


def _as_left(clauses: str) -> str:
    """The words with what is said of the packaging as one, and what a "not" takes back as what is left."""
    words = PACKAGING.sub(UNWRAPPED, clauses)
    if not _NOT.search(words):
        return words
    words = _EITHER.sub(r"\1\2 \1 ", words)
    for rule, left in _TAKEN_BACK:
        words = rule.sub(left, words)
    return words


def _leaves_it(word: str) -> bool:
    """A code of digits does too; fewer digits may be a share or a mark out of ten."""
    return word in _KNOWN or (word.isalpha() if len(word) == 1 else word.isdecimal() and len(word) >= _CODE)


def read_conditions(cells: Sequence[Cell]) -> Readings[int]:
    """Code of each cell's condition; `UNKNOWN` for blank, and named where the wording is not known.

    Examples
    --------
    >>> [(reading.value, reading.doubt) for reading in read_conditions(["Brand New", "", "Grade B"])]
    [(0, ''), (-1, ''), (-1, 'a condition wording that is not known')]
    """
    return read_column(cells, _read)


def _read(cell: Cell) -> Reading[int]:
    wording = plain_text(cell)
    if not wording:
        return Reading(UNKNOWN)
    condition = condition_of(wording)
    if condition is None:
        return Reading(UNKNOWN, "a condition wording that is not known", "taken as unknown")
    return Reading(code_of(condition))
