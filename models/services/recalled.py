"""What of earlier answers holds for a file?  Columns by its headers; what cells mean by its headers and its source.

Two sources that use the same headers may still mean different things by them: what was said of another source's file is
the first guess of a question, never its answer.
"""

import datetime as dt
import hashlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from models.intake.cells.wordings import plain_words
from models.intake.columns.column_names import is_lettered, named_twice, place_of, places_together
from models.services.running import Running
from models.store.records import ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.errors import NeedsColumns
from models.values.questions import ANSWERS, LOT_IS, NO_COLUMN, QUANTITY_IS, SHEET_IS, Question, is_answer

MANIFEST, HISTORY = "manifest", "history"
_MEANT: Mapping[str, str] = {MANIFEST: "manifest_meant", HISTORY: "history_meant"}  # where meanings are kept, by source
_MEANINGS = frozenset({*ANSWERS, "tag_each", "tag_line"})  # "Price" is a tag with one source and a cost with another
_OF_ONE_FILE = (LOT_IS, SHEET_IS)  # another file has other lots and sheets


@dataclass(frozen=True)
class Recalled:
    """`said` holds for this file, `guesses` were said of other sources' files; `on` is the day of the last word."""

    said: Mapping[str, str] = field(default_factory=dict)
    guesses: Mapping[str, str] = field(default_factory=dict)
    on: dt.date | None = None


Recall = Callable[[Sequence[str]], Recalled]


def recall_for(running: Running, kind: str, time_zone: str, source: str | None = None) -> Recall:
    """What this shop said of files of a kind, by their headers and who offers the goods."""

    def recall(headers: Sequence[str]) -> Recalled:
        mark = signature(headers)
        if not mark:
            return Recalled()
        with running.read() as work:
            return _recalled(work, running.job.shop, kind, (mark, _by_source(mark, source)), time_zone)

    return recall


def _recalled(work: UnitOfWork, shop: ShopId, kind: str, marks: tuple[str, str], time_zone: str) -> Recalled:
    last = work.remembered_columns.get(shop, kind, marks[0])
    meant = work.remembered_columns.get(shop, _MEANT[kind], marks[1])
    said = {key: value for key, value in last.items() if key not in _MEANINGS} | meant
    twice = named_twice(said)  # said of different files
    said = {key: value for key, value in said.items() if key not in twice}
    guesses = {key: value for key, value in last.items() if key in _MEANINGS}
    kept = (_MEANT[kind], marks[1]) if meant else (kind, marks[0])
    return Recalled(said, guesses, work.remembered_columns.day(shop, *kept, time_zone) if said else None)


def remember(
    work: UnitOfWork, shop: ShopId, kind: str, headers: Sequence[str], said: Mapping[str, str], source: str | None
) -> None:
    """Keep what was said, where it was about this file; nothing said is no reason to forget."""
    mark = signature(headers)
    about = {key: value for key, value in said.items() if _lasts(key, value, headers)}
    if mark and about:
        meant = {key: value for key, value in about.items() if key in _MEANINGS}
        work.remembered_columns.put(shop, kind, mark, about)
        work.remembered_columns.put(shop, _MEANT[kind], _by_source(mark, source), meant)


def guessed(asked: NeedsColumns, guesses: Mapping[str, str]) -> NeedsColumns:
    """The same questions; what was said of another source's file is our first guess, unless this file speaks."""
    questions = tuple(_guessed(one, guesses.get(one.key, "")) for one in asked.questions)
    return NeedsColumns(asked.message, asked.missing, asked.headers, questions, asked.found)


def _guessed(question: Question, guess: str) -> Question:
    can_be = guess in [choice.value for choice in question.choices]
    return replace(question, guess=guess) if can_be and not question.why else question


def signature(headers: Sequence[str]) -> str:
    """Tells a file's headers from others, "" for a file without any: those say nothing of the next file."""
    if all(map(is_lettered, headers)):
        return ""
    said = [plain_words(header) or header.strip() for header in headers]
    return hashlib.sha256("\n".join(said).encode()).hexdigest()


def _by_source(mark: str, source: str | None) -> str:
    """Of a file's headers and who offers the goods, whatever the capitals and spaces of the name."""
    return hashlib.sha256(f"{mark}\n{' '.join((source or '').split()).casefold()}".encode()).hexdigest()


def _lasts(key: str, value: str, headers: Sequence[str]) -> bool:
    """False for what says nothing of the next file: its lots, its sheets, how many units its packs hold."""
    if key in _OF_ONE_FILE or (key == QUANTITY_IS and value.strip().isdigit()):
        return False
    named = place_of(value, headers) is not None or bool(places_together(value, headers))
    return is_answer(key) or value == NO_COLUMN or named
