"""Which column of a file is which?  Trade words and content weighed together, one to one; a given mapping wins.

Where we are not sure of a column that would be wrong in silence, nobody guesses: the seller is asked.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from models.intake.columns.assignment import best_assignment, confidences
from models.intake.columns.column_doubts import doubts_of, mere_guesses
from models.intake.columns.column_names import column_names, named_twice, places_of
from models.intake.columns.column_odds import odds_of
from models.intake.columns.column_questions import column_questions
from models.intake.columns.glances import Glance, glance
from models.intake.columns.state_like import state_places
from models.intake.columns.vocabulary import KNOWN_KEYS, Vocabulary
from models.intake.grid import Cell
from models.values.errors import NeedsColumns, Rejected
from models.values.questions import NO_COLUMN, RECALLED, Question, fault_of, is_answer

_STATUS = "status"
_NAMED = 40  # headers that a message repeats


@dataclass(frozen=True)
class Match:
    """`places` {canonical: position}; `confidence` of each, 0 to 1; `names` of all columns, "" for empty ones.

    `without` are the columns of which the seller said that the file has none, `unfound` those named by a header that
    the file does not have; `states` are positions of further columns of states beside `status`.
    """

    places: Mapping[str, int]
    confidence: Mapping[str, float]
    names: tuple[str, ...]
    without: tuple[str, ...]
    unfound: tuple[str, ...] = ()
    states: tuple[int, ...] = ()

    def headers(self) -> dict[str, str]:
        """{canonical: name}: given as a mapping, it matches the same columns again."""
        return {column: self.names[place] for column, place in self.places.items()} | dict.fromkeys(
            self.without, NO_COLUMN
        )


def check_mapping(mapping: Mapping[str, str]) -> None:
    """Refuse a mapping no file could use.

    Raises
    ------
    Rejected
        If a key is neither a canonical column nor an answer, or an answer cannot be used.

    Examples
    --------
    >>> check_mapping({"title": "Item", "sold_price_is": "row"})
    """
    unknown = [key for key in mapping if key not in KNOWN_KEYS and key != RECALLED and not is_answer(key)]
    if unknown:
        raise Rejected(f"'{unknown[0]}' is not a column that can be mapped.", dict.fromkeys(unknown, "no such column"))
    faults = {key: why for key, value in mapping.items() if is_answer(key) and (why := fault_of(key, value))}
    if faults:
        raise Rejected("; ".join(f"{key} {why}" for key, why in faults.items()) + ".", faults)


def match_columns(
    headers: Sequence[Cell], samples: Sequence[Sequence[Cell]], vocabulary: Vocabulary, mapping: Mapping[str, str]
) -> Match:
    """The columns that the file has.

    Parameters
    ----------
    headers : sequence of Cell
        The header row, as long as the table is wide; all "" where the file has none.
    samples : sequence of sequences of Cell
        Some cells of each column, in the headers' order.
    vocabulary : Vocabulary
        The kind of file.
    mapping : mapping
        {canonical: header in file, or "-" for none}; wins over everything.

    Returns
    -------
    Match
        Columns in the vocabulary's order.

    Raises
    ------
    NeedsColumns
        If a required column is not recognised, or one that is doubted is not sure.
    Rejected
        If the mapping names one header for two columns.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> match_columns(["Item #", "Item", "Qty."], [["1"], ["Blue mug"], ["2"]], MANIFEST, {}).places
    {'description': 1, 'quantity': 2, 'sku': 0}
    """
    seen = [glance(cells) for cells in samples]
    names = tuple(column_names(headers, [one.filled > 0 for one in seen]))
    named = {column: header for column, header in mapping.items() if column in vocabulary.wordings}
    if twice := named_twice(named, names):
        said = "; ".join(f"{column}: {why}" for column, why in twice.items())
        raise Rejected(f"One heading can be one column only. {said}.", twice)
    given = places_of(named, names)
    without = tuple(column for column, header in named.items() if header.strip() == NO_COLUMN)
    odds = odds_of(headers, seen, vocabulary).without({*given, *without}, set(given.values()))
    chosen = best_assignment(odds.gains)
    sure = confidences(odds.rivals_of(chosen), chosen) | dict.fromkeys(given, 1.0)
    doubts = doubts_of(odds, chosen, sure, {*given, *without}, [one.filled > 0 for one in seen], vocabulary)
    unsure = {column for column, *_ in doubts} | mere_guesses(odds, chosen, sure)
    both = chosen | given
    places = {column: both[column] for column in vocabulary.wordings if column in both and column not in unsure}
    if doubts:
        found = {column: names[place] for column, place in places.items()}
        questions = column_questions(doubts, names, seen, vocabulary)
        raise asking(_with_strangers(questions, named), names, found, vocabulary)
    unfound = tuple(column for column in named if column not in given and column not in without)
    match = Match(places, {column: sure[column] for column in places}, names, without, unfound)
    return _with_states(match, seen) if _STATUS in vocabulary.wordings and _STATUS not in without else match


def _with_states(match: Match, seen: Sequence[Glance]) -> Match:
    """The first column of states is the status where no header says so; none of the others goes unread."""
    states = state_places(match.names, seen, set(match.places.values()))
    if _STATUS in match.places or not states:
        return replace(match, states=states)
    first, *others = states
    return replace(
        match,
        places={**match.places, _STATUS: first},
        confidence={**match.confidence, _STATUS: seen[first].state},
        states=tuple(others),
    )


def _with_strangers(questions: Sequence[Question], named: Mapping[str, str]) -> list[Question]:
    """A header that was named and is not in the file is said, else the same question would come again unexplained."""
    return [
        replace(one, words=f"The file has no column '{named[one.key].strip()}'. {one.words}")
        if one.key in named
        else one
        for one in questions
    ]


def asking(
    questions: Sequence[Question], names: Sequence[str], found: Mapping[str, str], vocabulary: Vocabulary
) -> NeedsColumns:
    """The error that carries the questions, in words for whoever reads them without a page."""
    keys = [question.key for question in questions]
    shown = [name for name in names if name]
    guesses = [f"'{one.guess}' ({', '.join(one.examples)})" if one.examples else f"'{one.guess}'" for one in questions]
    said = [
        f"{question.words} It may be {guess}." if question.guess else question.words
        for question, guess in zip(questions, guesses, strict=True)
    ]
    message = f"Some columns of the {vocabulary.kind} must be named first. {' '.join(said)}"
    more = f" and {len(shown) - _NAMED} more" if len(shown) > _NAMED else ""
    message += f" The file's headers are: {', '.join(shown[:_NAMED])}{more}."
    return NeedsColumns(message, keys, shown, questions, found)
