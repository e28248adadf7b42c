"""What does a grade such as "B" mean?  It belongs to whoever gave it: asked once, remembered, never guessed."""

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import islice

from models.intake.cells.conditions import condition_of
from models.intake.cells.reading import Reading, Readings
from models.intake.grid import Cell, plain_text
from models.values.conditions import UNKNOWN, Condition, code_of
from models.values.questions import GRADE, UNKNOWN_GRADE, Choice, Question, grade_key

_MOST = 0.5  # of the cells that say anything: fewer stay unknown and are named, without a question
_FEWEST = 2  # cells
_MOST_GRADES = 12  # more are no scale
_SHOWN, _LONGEST = 3, 40  # goods beside a grade, and characters of each
_GRADE = re.compile(
    r"(?:(?:grade|grd|class|cond(?:ition)?|rank|tier|level|type|code|stufe|klasse|qualité|zustand)\b[\s:.#-]*)?"
    r"(?:[a-z]{1,2}[+-]{0,2}|[a-z]\d|\d{1,4}[a-z]?|i{1,3}|iv)(?:[\s-]*(?:grade|stock|ware|klasse))?",
    re.IGNORECASE,
)
_SAID: Mapping[Condition, str] = {
    Condition.SEALED: "new and unopened",
    Condition.OPENED: "opened, like new",
    Condition.WORKS: "used, tested and working",
    Condition.WORN: "used and worn",
    Condition.UNTESTED: "untested or returned",
    Condition.SALVAGE: "broken, for parts",
}
_CHOICES = (
    *(Choice(condition.value, words) for condition, words in _SAID.items()),
    Choice(UNKNOWN_GRADE, "not known; it counts as untested"),
)


def given_conditions(given: Mapping[str, str]) -> dict[str, int]:
    """{grade key: code} of the answers in a mapping.

    Examples
    --------
    >>> given_conditions({"condition:B": "opened", "condition:C": "unknown", "sku": "Item"})
    {'condition:B': 1, 'condition:C': -1}
    """
    return {grade_key(key.removeprefix(GRADE)): _code(value) for key, value in given.items() if key.startswith(GRADE)}


def with_grades(cells: Sequence[Cell], readings: Readings[int], codes: Mapping[str, int]) -> Readings[int]:
    """Readings in which what was said of a grade wins.

    Examples
    --------
    >>> from models.intake.cells.conditions import read_conditions
    >>> [one.value for one in with_grades(["b", "New"], read_conditions(["b", "New"]), {"condition:B": 1})]
    [1, 0]
    """
    if not codes:
        return readings
    said = {cell: Reading(codes[key]) for cell in set(cells) if (key := grade_key(plain_text(cell))) in codes}
    return readings.told(said)


def grade_questions(cells: Sequence[Cell], codes: Mapping[str, int], goods: Sequence[Cell] = ()) -> list[Question]:
    """One question a grade, where most of a column is grades nobody has explained; other wordings stay unknown.

    Parameters
    ----------
    cells : sequence of Cell
        The condition column.
    codes : mapping
        From `given_conditions`.
    goods : sequence of Cell
        What each row is, to be shown beside its grade; empty where that is not known.

    Examples
    --------
    >>> [question.key for question in grade_questions(["A", "B", "B", "New"], {"condition:A": 0})]
    ['condition:B']
    >>> grade_questions(["New", "New", "New", "B"], {})
    []
    """
    counts = Counter[str]()
    for cell, count in Counter(cells).items():
        counts[plain_text(cell)] += count
    del counts[""]
    unexplained = [text for text in counts if _is_grade(text) and grade_key(text) not in codes]
    grades = {" ".join(text.split()).upper() for text in unexplained}
    rows = sum(counts[text] for text in unexplained)
    if rows < max(_FEWEST, _MOST * sum(counts.values())) or len(grades) > _MOST_GRADES:
        return []
    return [
        Question(grade_key(grade), f"What does the condition '{grade}' mean?", _CHOICES, _goods(grade, cells, goods))
        for grade in sorted(grades)
    ]


def _goods(grade: str, cells: Sequence[Cell], goods: Sequence[Cell]) -> tuple[str, ...]:
    """A few of the things that have the grade: what they are helps to remember what it meant."""
    key = grade_key(grade)
    named = (plain_text(good) for cell, good in zip(cells, goods, strict=False) if grade_key(plain_text(cell)) == key)
    return tuple(text[:_LONGEST] for text in islice(dict.fromkeys(filter(None, named)), _SHOWN))


def _is_grade(text: str) -> bool:
    return bool(_GRADE.fullmatch(text)) and condition_of(text) is None


def _code(value: str) -> int:
    return UNKNOWN if value == UNKNOWN_GRADE else code_of(Condition(value))
