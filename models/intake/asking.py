"""Are there more questions behind the ones about columns?  All of a file's are asked together, not one by one."""

from collections.abc import Callable, Mapping, Sequence
from typing import TypeVar

from models.values.errors import NeedsColumns, Rejected
from models.values.questions import (
    DATES_ARE,
    NO_COLUMN,
    QUANTITY_IS,
    SOLD_PRICE_IS,
    TAG_IS,
    Question,
    is_answer,
    questions_in_words,
)

R = TypeVar("R")
# Questions about the cells of a column that is itself in question wait for its answer.
_ABOUT: Mapping[str, frozenset[str]] = {
    TAG_IS: frozenset({"tag_each", "tag_line"}),
    QUANTITY_IS: frozenset({"quantity"}),
    SOLD_PRICE_IS: frozenset({"sold_price", "quantity"}),
    DATES_ARE: frozenset({"sold_on", "listed_on"}),
}


def asking_all(read: Callable[[Mapping[str, str]], R], mapping: Mapping[str, str]) -> R:
    """What `read` gives; where it asks for columns, with what it would ask once these are told.

    Parameters
    ----------
    read : callable
        Reads the file under a mapping.
    mapping : mapping
        What the seller said.

    Raises
    ------
    NeedsColumns
        With the questions of both readings.

    Examples
    --------
    >>> from models.values.questions import Choice
    >>> def read(said):
    ...     key = "dates_are" if "title" in said else "title"
    ...     raise NeedsColumns(key, [key], ["Ware"], [Question(key, key, (Choice("Ware", "Ware"),))], {})
    >>> try:
    ...     asking_all(read, {})
    ... except NeedsColumns as asked:
    ...     asked.missing
    ('title', 'dates_are')
    """
    try:
        return read(mapping)
    except NeedsColumns as asked:
        asked_first = asked
    more = [] if any(map(is_answer, asked_first.missing)) else _more(read, mapping, asked_first.questions)
    if not more:
        raise asked_first
    questions = (*asked_first.questions, *more)
    message = f"{asked_first.message} {questions_in_words(more)}"
    keys = [one.key for one in questions]
    found = {column: header for column, header in asked_first.found.items() if column not in keys}
    raise NeedsColumns(message, keys, asked_first.headers, questions, found)


def _more(
    read: Callable[[Mapping[str, str]], R], mapping: Mapping[str, str], asked: Sequence[Question]
) -> list[Question]:
    """What is asked when our guesses, or the first choices, stand in for the answers."""
    stand_in = {one.key: one.guess or (one.choices[0].value if one.choices else NO_COLUMN) for one in asked}
    try:
        read({**mapping, **stand_in})
    except NeedsColumns as then:
        return [
            one for one in then.questions if one.key not in stand_in and not _ABOUT.get(one.key, set()) & set(stand_in)
        ]
    except Rejected:
        pass
    return []
