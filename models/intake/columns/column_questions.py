"""How is a seller asked which column is which?  With words of the trade, examples of the cells, and our guess."""

import re
from collections.abc import Mapping, Sequence

from models.intake.cells.price_words import says_line
from models.intake.cells.wordings import plain_words
from models.intake.columns.column_doubts import Doubt
from models.intake.columns.column_names import TOGETHER
from models.intake.columns.evidence import MONEY_COLUMNS, NEVER, content_fit
from models.intake.columns.glances import Glance, is_personal
from models.intake.columns.header_words import PART, about_people, header_scores
from models.intake.columns.leanings import ELSEWHERE
from models.intake.columns.money_like import looks_like_money
from models.intake.columns.vocabulary import Vocabulary
from models.intake.grid import Cell, plain_text
from models.values.questions import NO_COLUMN, Choice, Question

_WORDS: Mapping[str, str] = {
    "description": "Which column says what each thing is?",
    "title": "Which column says what was sold?",
    "sold_price": "Which column is the price a thing sold for, without postage and sales tax?",
    "quantity": "Which column counts the units of each row, single pieces and not cases?",
    "tag_each": "Which column is the price tag of one unit: what the thing costs new in a shop, not what you or "
    "anybody pays for it in this lot?",
    "tag_line": "Which column is the price tag of all units of a row together: what they cost new in a shop?",
    "sold_on": "Which column is the day a thing sold?",
    "asking_price": "Which column is the price a listing asks?",
    "listing_ref": "Which column is the listing number?",
    "order_ref": "Which column is the order number?",
}
_ANY_WORDS = "Which column is it?"
_NONE: Mapping[str, str] = {
    "quantity": "none of them: every row is one unit",
    "tag_each": "none of them: the file has no price tag of one unit",
    "tag_line": "none of them",
    "sold_on": "none of them: the file does not say when a thing sold",
}
_GOODS = ("description", "title")
_NUMBERED = (*MONEY_COLUMNS, "quantity", "sold_on", "listed_on", "first_listed_on", "gtin", "weight_kg")
_HALF = 0.5
_TOSS_UP = 0.505  # confidence of one of two that are alike: no guess
_AGAIN = re.compile(r" \(\d+\)$")  # the same header in a second list beside
_EXAMPLES = 3
_FEWEST_TOGETHER = 2
_LONGEST_EXAMPLE = 40  # characters
_MOST_CHOICES = 60


def column_questions(
    doubts: Sequence[Doubt], names: Sequence[str], seen: Sequence[Glance], vocabulary: Vocabulary
) -> tuple[Question, ...]:
    """The questions; the choices are the columns whose cells could be meant, or all where none could.

    Parameters
    ----------
    doubts : sequence of (str, int or None, float)
        Canonical column, position of our guess, confidence 0 to 1.
    names : sequence of str
        What the file's columns are called, "" for empty ones.
    seen : sequence of Glance
        What each column looks like.
    vocabulary : Vocabulary
        The kind of file.

    Examples
    --------
    >>> from models.intake.columns.glances import glance
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> seen = [glance(["Blue mug"]), glance(["9.99", "5"])]
    >>> asked = column_questions([("tag_each", 1, 0.8)], ["Item", "Price"], seen, MANIFEST)
    >>> [(choice.value, choice.words) for choice in asked[0].choices]
    [('Price', 'Price: 9.99, 5'), ('-', 'none of them: the file has no price tag of one unit')]
    >>> asked[0].guess
    'Price'
    """
    return tuple(_question(doubt, names, seen, vocabulary) for doubt in doubts)


def _question(doubt: Doubt, names: Sequence[str], seen: Sequence[Glance], vocabulary: Vocabulary) -> Question:
    column, guess, sure = doubt
    guess = guess if sure > _TOSS_UP else None
    named = [place for place, name in enumerate(names) if name]
    possible = [place for place in named if content_fit(column, seen[place]) > NEVER and seen[place].filled]
    if column in _GOODS:
        possible = _may_name_goods(column, named, names, seen, vocabulary)
    elif column in MONEY_COLUMNS:
        possible = [place for place in possible if looks_like_money(names[place], seen[place])]
    shown = (possible or named)[:_MOST_CHOICES]
    shown += [guess] if guess is not None and guess not in shown else []
    cells = {place: examples(names[place], seen[place].texts) for place in shown}
    choices = [Choice(names[place], _told(names[place], cells[place]), cells[place]) for place in shown]
    choices += _together(column, [place for place in shown if seen[place].units], names, vocabulary)
    if column not in vocabulary.required:
        choices.append(Choice(NO_COLUMN, _NONE.get(column, "none of them")))
    name, own = ("", ()) if guess is None else (names[guess], cells[guess])
    words = _WORDS.get(column, _ANY_WORDS)
    return Question(column, words, tuple(choices), own, guess=name, confidence=round(sure, 3))


def _together(column: str, places: Sequence[int], names: Sequence[str], vocabulary: Vocabulary) -> tuple[Choice, ...]:
    """The sum of several counts that differ by a word of their own, such as a place: "Qty East", "Qty West"."""
    if column != "quantity" or vocabulary.kind != "manifest":
        return ()
    words = {place: plain_words(names[place]) for place in places}
    counts = [
        names[place]
        for place in places
        if column in header_scores(words[place], vocabulary)
        and not ELSEWHERE & set(words[place].split())
        and not (says_line(names[place]) or _AGAIN.search(names[place]))
    ]
    if len(counts) < _FEWEST_TOGETHER:
        return ()
    return (Choice(TOGETHER.join(counts), f"the sum of {', '.join(counts)}"),)


def _may_name_goods(
    column: str, named: Sequence[int], names: Sequence[str], seen: Sequence[Glance], vocabulary: Vocabulary
) -> list[int]:
    """Every column of words or codes, those that their header calls so first; none that its header calls otherwise."""
    called: list[int] = []
    others: list[int] = []
    for place in named:
        scores = header_scores(plain_words(names[place]), vocabulary)
        if not seen[place].filled or is_personal(seen[place].texts):
            continue
        if scores.get(column, 0) > PART:
            called.append(place)
        elif not any(scores.get(other, 0) > PART for other in _NUMBERED) and _has_words(names[place], seen[place]):
            others.append(place)
    return called + others


def _has_words(name: str, seen: Glance) -> bool:
    lettered = sum(any(map(str.isalpha, text)) for text in seen.texts if text)
    filled = sum(1 for text in seen.texts if text)
    wordy = 2 * lettered > filled and max(seen.date, seen.link) <= _HALF
    return wordy and (seen.text > _HALF or not looks_like_money(name, seen))


def examples(name: str, cells: Sequence[Cell]) -> tuple[str, ...]:
    """A few different cells as they stand in the file; none of a column about people.

    Examples
    --------
    >>> examples("Price", ["", "9.99", "9.99", "5"]), examples("Ship to city", ["Springfield"])
    (('9.99', '5'), ())
    """
    filled = [text for cell in cells if (text := plain_text(cell))]
    if is_personal(cells) or about_people(plain_words(name)):
        return ()
    return tuple(text[:_LONGEST_EXAMPLE] for text in dict.fromkeys(filled))[:_EXAMPLES]


def _told(name: str, cells: Sequence[str]) -> str:
    return f"{name}: {', '.join(cells)}" if cells else name
