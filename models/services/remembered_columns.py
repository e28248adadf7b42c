"""What a seller said of a file is said for all later files with the same headers, in the same shop.

A file that comes with a mapping of its own is read by that alone, and what it says is remembered from then on.
"""

import hashlib
from collections.abc import Callable, Mapping, Sequence
from typing import Generic, Protocol, TypeVar

from models.intake.cells.wordings import plain_words
from models.intake.columns.column_names import is_lettered, place_of
from models.services.running import Running
from models.store.records import FileFacts, ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.errors import NeedsColumns
from models.values.lines import LINE_REQUIRED
from models.values.questions import LOT_IS, NO_COLUMN, QUANTITY_IS, SHEET_IS, Choice, Question, is_answer
from models.values.sales import SALES_REQUIRED

MANIFEST, HISTORY = "manifest", "history"
_OF_ONE_FILE = (LOT_IS, SHEET_IS)  # another file has other lots and sheets
Recall = Callable[[Sequence[str]], Mapping[str, str]]


class Read(Protocol):
    """What reading a file gives."""

    @property
    def mapping(self) -> Mapping[str, str]: ...

    @property
    def headers(self) -> Sequence[str]: ...

    @property
    def unfound(self) -> Sequence[str]: ...


R = TypeVar("R", bound=Read)


class Remembering(Generic[R]):
    """Reads a file as its seller said, or says; `used` is the mapping it was read with last."""

    def __init__(self, read: Callable[[Mapping[str, str]], R], recall: Recall) -> None:
        self._read = read
        self._recall = recall
        self.used: Mapping[str, str] = {}

    def read(self, given: Mapping[str, str]) -> R:
        """Read with what was given; else as files with these headers were read before, where they were."""
        self.used = given
        if given:
            return _all_found(self._read(given), given)
        try:
            found = self._read(given)
        except NeedsColumns as asked:
            held = self._recall(asked.headers)
            if not held:
                raise
        else:
            held = self._recall(found.headers)
            if all(found.mapping.get(column) == header for column, header in held.items()):
                return found
        self.used = held
        return self._read(held)


def _all_found(read: R, given: Mapping[str, str]) -> R:
    """What was read; NeedsColumns where it was told a header that the file does not have."""
    columns, none = tuple(Choice(name, name) for name in read.headers), (Choice(NO_COLUMN, "none of them"),)
    asked = [
        Question(
            column,
            f"The file has no column '{given[column]}'. Which column did you mean?",
            columns if column in (*LINE_REQUIRED, *SALES_REQUIRED) else columns + none,
            guess=read.mapping.get(column, ""),
        )
        for column in read.unfound
    ]
    if asked:
        words = f"{' '.join(one.words for one in asked)} The file's headers are: {', '.join(read.headers)}."
        raise NeedsColumns(words, [one.key for one in asked], read.headers, asked, read.mapping)
    return read


def recall_for(running: Running, kind: str) -> Recall:
    """What this shop said of files of a kind, by their headers."""

    def recall(headers: Sequence[str]) -> Mapping[str, str]:
        mark = signature(headers)
        if not mark:
            return {}
        with running.read() as work:
            return work.remembered_columns.get(running.job.shop, kind, mark)

    return recall


def remember(work: UnitOfWork, shop: ShopId, kind: str, headers: Sequence[str], said: Mapping[str, str]) -> None:
    """Keep what was said, where it was about this file; nothing said is no reason to forget."""
    mark = signature(headers)
    about = {key: value for key, value in said.items() if _lasts(key, value, headers)}
    if mark and about:
        work.remembered_columns.put(shop, kind, mark, about)


def asked_facts(used: Mapping[str, str], asked: NeedsColumns) -> FileFacts:
    """What is kept of a file that asks."""
    return FileFacts(used, asked.headers, asked.missing, questions=asked.questions, found=asked.found)


def signature(headers: Sequence[str]) -> str:
    """Tells a file's headers from others, "" for a file without any: those say nothing of the next file."""
    if all(map(is_lettered, headers)):
        return ""
    said = [plain_words(header) or header.strip() for header in headers]
    return hashlib.sha256("\n".join(said).encode()).hexdigest()


def _lasts(key: str, value: str, headers: Sequence[str]) -> bool:
    """False for what says nothing of the next file: its lots, its sheets, how many units its packs hold."""
    if key in _OF_ONE_FILE or (key == QUANTITY_IS and value.strip().isdigit()):
        return False
    return is_answer(key) or value == NO_COLUMN or place_of(value, headers) is not None
