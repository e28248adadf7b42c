"""Does a description say that the goods are broken, beside a better condition or none?  That is told, row by row.

Common practice, no source.  Only words that stand apart ("Phone (defective)", "Clock - for parts") or end a description
("Mirror BROKEN") are meant: shampoo is for damaged hair, and pepper is cracked.
"""

import re
from collections.abc import Iterator, Sequence

from models.intake.cells.conditions import condition_of, says_condition_alone
from models.intake.cells.word_lists import word_list
from models.intake.many import in_small_letters, mostly_distinct
from models.values.conditions import Condition, code_of
from models.values.problems import Caution

_STEMS = word_list("broken; defe; r parts; salvage; damaged; t work; faulty; kaputt")  # few, since each costs a search
_APART = re.compile(r"[-\u2013\u2014]{2,}|\s[-\u2013\u2014*]+\s|[(),;:|/*\[\]!.]+")
_AT_END = re.compile(r"\s(?:broken|defe[ck]t(?:ive)?|salvage|damaged|faulty|kaputt)[\s.!*]*$", re.IGNORECASE)
_MOST_NAMED, _LONGEST = 6, 60


def worse_words(descriptions: Sequence[str], conditions: Sequence[int], rows: Sequence[int]) -> tuple[Caution, ...]:
    """One caution for all rows whose words say broken while their condition does not.

    Parameters
    ----------
    descriptions : sequence of str
        Of the kept lines.
    conditions : sequence of int
        Their codes.
    rows : sequence of int
        Their row numbers.

    Examples
    --------
    >>> goods = ["Phone (defective)", "Shampoo for damaged hair", "Fan BROKEN"]
    >>> worse_words(goods, [0, 0, 5], [2, 3, 4])[0].what
    "The words of 1 row say that it is broken, its condition does not: 'Phone (defective)' (row 2)."
    """
    broken = set(_broken(descriptions))
    if not broken:
        return ()
    salvage = code_of(Condition.SALVAGE)
    told = [
        f"'{text[:_LONGEST]}' (row {row})"
        for text, condition, row in zip(descriptions, conditions, rows, strict=True)
        if text in broken and condition != salvage
    ]
    if not told:
        return ()
    named = ", ".join(told[:_MOST_NAMED]) + (", ..." if len(told) > _MOST_NAMED else "")
    one = len(told) == 1
    count, does = ("1 row say that it is", "its") if one else (f"{len(told):,} rows say that they are", "their")
    what = f"The words of {count} broken, {does} condition does not: {named}."
    return (
        Caution(what, "They are valued by their condition; write 'for parts' into a condition column if it is so."),
    )


def _broken(descriptions: Sequence[str]) -> Iterator[str]:
    """Those that say so; most say nothing of it, which is told of a hundred at once."""
    for some, small in in_small_letters(mostly_distinct(descriptions)):
        if any(stem in small for stem in _STEMS):
            yield from filter(_says_broken, some)


def _says_broken(text: str) -> bool:
    name, *apart = _APART.split(text)
    if not name.strip():
        return False
    if _AT_END.search(text):
        return condition_of(text) is not None or not apart
    return any(says_condition_alone(words) and condition_of(words) is Condition.SALVAGE for words in apart)
