"""What a file asks, as its form shows it: what is chosen now, what is missing, and the answers as they were sent."""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from starlette.responses import Response

from api.http.pages.columns import NUMBER, PREFIX, Column, Question, named_columns
from models.values.errors import Rejected
from models.values.questions import SOLD_PRICE_IS, SOURCED_IS, Choice
from models.values.questions import Question as Asked

MOST_BUTTONS: Final = 8  # more choices are a list to open
CHOOSE: Final = "Choose one of these"
CHOOSE_OR_COUNT: Final = "Choose one of these, or choose the last one and type how many"
BOTH: Final = "You chose one answer and typed a number as well: keep one of them"
HEADING: Final = "Choose the heading it stands under"


@dataclass(frozen=True)
class Asking:
    """One question; `chosen` is None until something is, `typed` is its number, `doubt` what to say of the answer."""

    key: str
    place: str  # where it stands on the page
    words: str
    choices: tuple[Choice, ...]
    examples: tuple[str, ...]
    number: bool
    guess: str
    is_list: bool
    chosen: str | None
    typed: str = ""
    doubt: str = ""


@dataclass(frozen=True)
class Form:
    """The whole form: `doubts` by the place on the page where each stands."""

    question: Question
    asked: tuple[Asking, ...]
    needed: tuple[Column, ...]
    helpful: tuple[Column, ...]
    price_is: str  # what the sold price is for: "" or an answer
    sourced_is: str  # how the goods came in: "" or an answer
    doubts: Mapping[str, str]

    @property
    def title(self) -> str:
        """How much there is to say."""
        return f"{len(self.asked)} questions first" if len(self.asked) > 1 else "One question first"

    @property
    def helpful_places(self) -> frozenset[str]:
        """Where the columns stand that fold away."""
        return frozenset(f"column-{one.name}" for one in self.helpful)

    @property
    def to_mend(self) -> Sequence[tuple[str, str]]:
        """Each place with a doubt and what it is about, for links at the top."""
        words = {one.place: one.words for one in self.asked}
        words |= {f"column-{one.name}": one.label for one in (*self.needed, *self.helpful)}
        return [(place, words.get(place, "the columns")) for place in self.doubts]


def form_of(question: Question) -> Form:
    """As it is drawn first, our guesses chosen."""
    alike = Counter(one.choices for one in question.asked)
    asked = tuple(
        _asking(one, f"ask-{place}", is_list=len(one.choices) > MOST_BUTTONS or alike[one.choices] > 1)
        for place, one in enumerate(question.asked, 1)
    )
    return Form(question, asked, question.needed, question.helpful, question.price_is, question.sourced_is, {})


def _asking(one: Asked, place: str, *, is_list: bool) -> Asking:
    shown = one.key, place, one.words, one.choices, one.examples, one.number, one.guess
    return Asking(*shown, is_list=is_list, chosen=one.guess or None)


def answered(question: Question, fields: Mapping[str, str], faults: Mapping[str, str]) -> Form:
    """As it was sent, with what is missing or cannot be used; `faults` are the reasons of a refusal by column."""
    drawn = form_of(question)
    answers = named_columns(fields)
    asked = tuple(_sent(one, fields, answers, faults) for one in drawn.asked)
    needed, helpful = (
        tuple(replace(one, chosen=answers.get(one.name, "")) for one in columns)
        for columns in (drawn.needed, drawn.helpful)
    )
    missing = {f"column-{one.name}": HEADING for one in needed if one.name in question.missing and not one.chosen}
    told = missing | {one.place: one.doubt for one in asked if one.doubt}
    others = faults.keys() - {one.key for one in asked}
    told |= {f"column-{key}": faults[key] for key in sorted(others)}
    return Form(question, asked, needed, helpful, answers.get(SOLD_PRICE_IS, ""), answers.get(SOURCED_IS, ""), told)


def _sent(one: Asking, fields: Mapping[str, str], answers: Mapping[str, str], faults: Mapping[str, str]) -> Asking:
    typed = fields.get(NUMBER + one.key, "").strip()
    doubt = faults.get(one.key, "")
    if typed and fields.get(PREFIX + one.key):
        doubt = BOTH
    elif one.key not in answers:
        doubt = CHOOSE_OR_COUNT if one.number else CHOOSE
    return replace(one, chosen=fields.get(PREFIX + one.key), typed=typed, doubt=doubt)


def kept_or_asked(
    question: Question, fields: Mapping[str, str], keep: Callable[[], Response], ask: Callable[[Form], Response]
) -> Response:
    """Keep complete answers; else, or where they are refused, ask again with everything that was chosen."""
    sent = answered(question, fields, {})
    if sent.doubts:
        return ask(sent)
    try:
        return keep()
    except Rejected as error:
        faults = error.faults or {"": error.message}
        return ask(answered(question, fields, faults))
