"""What must a seller say before a file can be read?  Each question with the key of the mapping that answers it.

Most answers name a header of the file.  Some say what cells mean; their keys are `ANSWERS`, and one for each grade of
whoever offers the goods: "condition:B".
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from models.values.conditions import Condition

NO_COLUMN = "-"  # the answer "none of them" for a column
DATES_ARE, QUANTITY_IS, SOLD_PRICE_IS, TAG_IS = "dates_are", "quantity_is", "sold_price_is", "tag_is"
DECIMALS_ARE, SHIPPING_IS, SOURCED_IS = "decimals_are", "shipping_is", "sourced_is"
LOT_IS, SHEET_IS = "lot_is", "sheet_is"  # which of several in a file: its name there, or `ALL_LOTS`
ALL_LOTS = "all"
GRADE = "condition:"  # before a grade, as the file writes it
UNKNOWN_GRADE = "unknown"
RECALLED = "recalled"  # names the answers of a mapping that were said of an earlier file: this one may contradict them
ANSWERS: dict[str, tuple[str, ...]] = {
    DATES_ARE: ("day_first", "month_first"),
    QUANTITY_IS: ("units",),  # or a whole number of units a pack, or the header of the column that has it
    SOLD_PRICE_IS: ("unit", "row", "order"),  # "order": the order's total stands on each of its rows
    TAG_IS: ("unit", "line"),  # what one tag stands for
    DECIMALS_ARE: ("point", "comma"),  # which sign cents follow, where "12.345" may be twelve or twelve thousand
    SHIPPING_IS: ("charged", "paid", "neither"),  # to the buyer, or by the seller
    SOURCED_IS: ("bulk", "single"),  # how the goods came in, where no cell of their row says so
}
_LONGEST_GRADE = 40


@dataclass(frozen=True)
class Choice:
    """One answer: what the mapping then holds, how a seller says it, and cells of the column that it names."""

    value: str
    words: str
    samples: tuple[str, ...] = ()


@dataclass(frozen=True)
class Question:
    """`choices` are all answers, but where `number` is true a whole number is one too.

    `guess` is the choice we would make, "" for none, and `confidence` how sure we are of it, 0 to 1.  `why` is what in
    the file contradicts an answer, "" where none was given; `words` say it too.
    """

    key: str  # of the mapping
    words: str
    choices: tuple[Choice, ...]
    examples: tuple[str, ...] = ()  # what stands in the file
    number: bool = False
    guess: str = ""
    confidence: float = 0.0
    why: str = ""


def question_of(told: Mapping[str, Any]) -> Question:
    """A question that was written down with `dataclasses.asdict`.

    Examples
    --------
    >>> from dataclasses import asdict
    >>> question = Question("tag_is", "?", (Choice("unit", "for one unit"),), ("5.00",))
    >>> question_of(asdict(question)) == question
    True
    """
    choices = tuple(Choice(**{**choice, "samples": tuple(choice.get("samples", ()))}) for choice in told["choices"])
    return Question(**{**told, "choices": choices, "examples": tuple(told["examples"])})


def is_answer(key: str) -> bool:
    """True for a key of a mapping whose value is no header of the file.

    Examples
    --------
    >>> is_answer("dates_are"), is_answer("condition:B"), is_answer("condition")
    (True, True, False)
    """
    return (
        key in ANSWERS
        or key in (LOT_IS, SHEET_IS)
        or (key.startswith(GRADE) and 0 < len(key) - len(GRADE) <= _LONGEST_GRADE)
    )


def with_recalled(mapping: Mapping[str, str], keys: Sequence[str]) -> dict[str, str]:
    """A mapping that names those of its answers that were said of an earlier file.

    Examples
    --------
    >>> is_recalled(with_recalled({"tag_is": "line"}, ["tag_is"]), "tag_is"), is_recalled({"tag_is": "line"}, "tag_is")
    (True, False)
    """
    return {**mapping, RECALLED: " ".join(keys)} if keys else dict(mapping)


def is_recalled(mapping: Mapping[str, str], key: str) -> bool:
    """True for what was said of an earlier file, so that this file's own cells go before it.

    Examples
    --------
    >>> is_recalled({"tag_is": "line", "recalled": "dates_are tag_is"}, "tag_is")
    True
    """
    return key in mapping.get(RECALLED, "").split()


def plain_answers(mapping: Mapping[str, str]) -> dict[str, str]:
    """A mapping whose fixed answers are written as `ANSWERS` has them, whatever their case, spaces or hyphens.

    Examples
    --------
    >>> plain_answers({"dates_are": "Day first", "condition:B": "Works ", "title": "Item name"})
    {'dates_are': 'day_first', 'condition:B': 'works', 'title': 'Item name'}
    """
    return {key: _plain_answer(value, _allowed(key)) for key, value in mapping.items()}


def _allowed(key: str) -> tuple[str, ...]:
    if key.startswith(GRADE):
        return (*(condition.value for condition in Condition), UNKNOWN_GRADE)
    return ANSWERS.get(key, ())


def _plain_answer(value: str, allowed: tuple[str, ...]) -> str:
    said = re.sub(r"[\s_-]+", "_", value.strip().casefold())
    return said if said in allowed else value


def fault_of(key: str, value: str) -> str | None:
    """Why an answer cannot be used, None if it can.

    Examples
    --------
    >>> fault_of("dates_are", "day_first"), fault_of("quantity_is", "12"), fault_of("condition:B", "fine")
    (None, None, 'must be one of sealed, opened, works, worn, untested, salvage, unknown')
    """
    value = _plain_answer(value, _allowed(key))
    if key in (LOT_IS, SHEET_IS):
        return None if value.strip() else "must be the name that stands in the file"
    if key == QUANTITY_IS:
        return (
            None
            if value.strip() and not re.fullmatch(r"0+|0*[1-9]\d{4,}|-.*", value.strip())
            else "say units or how many"
        )
    return _unless_in(value, _allowed(key))


def grade_key(grade: str) -> str:
    """The key that tells what a grade means; case and white space do not matter.

    Examples
    --------
    >>> grade_key(" Grade  b")
    'condition:GRADE B'
    """
    return GRADE + " ".join(grade.split()).upper()


def _unless_in(value: str, allowed: tuple[str, ...]) -> str | None:
    return None if value in allowed else f"must be one of {', '.join(allowed)}"


def questions_in_words(questions: Sequence[Question]) -> str:
    """Questions with their answers, on one line; answers that several share stand there once.

    Examples
    --------
    >>> choices = (Choice("day_first", "the day"),)
    >>> questions_in_words([Question("dates_are", "Which?", choices, ("03/04/2026",)), Question("b", "And?", choices)])
    'Which? (03/04/2026) And? Answer day_first: the day.'
    """
    alike = groupby(questions, key=lambda question: (question.choices, question.number))
    return " ".join(_together(list(group)) for _, group in alike)


def _together(questions: Sequence[Question]) -> str:
    asked = " ".join(f"{one.words} ({'; '.join(one.examples)})" if one.examples else one.words for one in questions)
    answers = "; ".join(f"{choice.value}: {choice.words}" for choice in questions[0].choices)
    number = "; or a whole number" if questions[0].number else ""
    return f"{asked} Answer {answers}{number}."
