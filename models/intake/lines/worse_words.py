"""Does a description say that the goods are broken, beside a better condition or none?  That is told, row by row.

Common practice, no source.  Only words that stand apart ("Phone (defective)", "Clock - for parts") or end a description
("Mirror BROKEN") are meant: shampoo is for damaged hair, and pepper is cracked.
"""

import re
from collections.abc import Collection, Iterable

from models.intake.cells.conditions import condition_of, says_condition_alone
from models.intake.cells.word_lists import word_list
from models.values.conditions import Condition, code_of
from models.values.lines import Lines
from models.values.problems import Caution

_STEMS = word_list("broken; defe; r parts; salvage; damaged; t work; faulty; kaputt")  # few, since each costs a search
_APART = re.compile(r"[-\u2013\u2014]{2,}|\s[-\u2013\u2014*]+\s|[(),;:|/*\[\]!.]+")
_AT_END = re.compile(r"\s(?:broken|defe[ck]t(?:ive)?|salvage|damaged|faulty|kaputt)[\s.!*]*$", re.IGNORECASE)
_MOST_NAMED, _LONGEST = 6, 60


def saying_broken(pieces: Iterable[tuple[list[str], str]]) -> set[str]:
    """Those of many descriptions that say so; most say nothing of it, which is told of a hundred at once.

    Parameters
    ----------
    pieces : iterable of (list of str, str)
        From `in_small_letters`.

    Examples
    --------
    >>> from models.intake.many import in_small_letters
    >>> sorted(saying_broken(in_small_letters(["Phone (defective)", "Shampoo for damaged hair", "Fan BROKEN"])))
    ['Fan BROKEN', 'Phone (defective)']
    """
    found: set[str] = set()
    for some, small in pieces:
        if any(stem in small for stem in _STEMS):
            found.update(filter(_says_broken, some))
    return found


def worse_words(lines: Lines, broken: Collection[str]) -> tuple[Caution, ...]:
    """One caution for all lines whose words say broken while their condition does not.

    Parameters
    ----------
    lines : Lines
        The kept ones.
    broken : collection of str
        Descriptions that say so, from `saying_broken`.
    """
    if not broken:
        return ()
    salvage = code_of(Condition.SALVAGE)
    columns = zip(lines.description.tolist(), lines.condition.tolist(), lines.row.tolist(), strict=True)
    told = [(text, row) for text, condition, row in columns if text in broken and condition != salvage]
    if not told:
        return ()
    named = ", ".join(f"'{text[:_LONGEST]}' (row {row})" for text, row in told[:_MOST_NAMED])
    more = ", ..." if len(told) > _MOST_NAMED else ""
    rows, does = (
        ("1 row say that it is", "its") if len(told) == 1 else (f"{len(told):,} rows say that they are", "their")
    )
    what = f"The words of {rows} broken, {does} condition does not: {named}{more}."
    return (
        Caution(what, "They are valued by their condition; write 'for parts' into a condition column if it is so."),
    )


def _says_broken(text: str) -> bool:
    name, *apart = _APART.split(text)
    if not name.strip():
        return False
    if _AT_END.search(text):
        return condition_of(text) is not None or not apart
    return any(says_condition_alone(words) and condition_of(words) is Condition.SALVAGE for words in apart)
