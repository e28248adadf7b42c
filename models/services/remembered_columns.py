"""What a seller said of a file is said for the shop's later files with the same headers, see `recalled`.

A file that comes with a mapping of its own is read by that alone, and what it says is remembered from then on.  What
the cells of a file contradict is not followed: it is asked again, or gives way where the cells leave no doubt.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import Generic, Protocol, TypeVar

from models.services.recalled import Recall, Recalled, guessed
from models.services.recalled_words import gave_way, read_with
from models.store.records import FileFacts
from models.values.errors import NeedsColumns
from models.values.lines import LINE_REQUIRED
from models.values.problems import Caution
from models.values.questions import DATES_ARE, NO_COLUMN, Choice, Question, with_recalled
from models.values.sales import SALES_REQUIRED


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
    """Reads a file as its seller said, or says; `used` is the mapping it was read with last.

    `remembered` are the earlier answers that the file alone does not give, `cautions` say so in words.
    """

    def __init__(self, read: Callable[[Mapping[str, str]], R], recall: Recall) -> None:
        self._read = read
        self._recall = recall
        self.used: Mapping[str, str] = {}
        self.remembered: Mapping[str, str] = {}
        self.cautions: tuple[Caution, ...] = ()

    def read(self, given: Mapping[str, str]) -> R:
        """Read with what was given; else as files with these headers were read before, where they were."""
        self.used = given
        if given:
            return _all_found(self._read(given), given)
        try:
            alone = self._read(given)
        except NeedsColumns as asked:
            held = self._recall(asked.headers)
            if not held.said:
                raise guessed(asked, held.guesses) from None
            return self._as_before(held, asked.found)
        held = self._recall(alone.headers)
        if all(alone.mapping.get(column) == header for column, header in held.said.items()):
            return alone
        return self._as_before(held, alone.mapping)

    def _as_before(self, held: Recalled, alone: Mapping[str, str]) -> R:
        try:
            read = self._recalled(held.said)
        except NeedsColumns as asked:
            self.used = {key: value for key, value in held.said.items() if key not in asked.missing}
            proofs = [one.why for one in asked.questions if one.key == DATES_ARE and one.why]
            if not proofs or DATES_ARE not in held.said:
                raise guessed(asked, held.guesses) from None
            self.cautions = (gave_way(held.said[DATES_ARE], proofs[0]),)
            read = self._without_proven(held)
        told = {key: value for key, value in self.used.items() if alone.get(key) != value}
        self.remembered = told
        self.cautions += read_with(told, held.on, read.mapping) if told else ()
        return read

    def _without_proven(self, held: Recalled) -> R:
        said = {key: value for key, value in held.said.items() if key != DATES_ARE}
        try:
            return self._recalled(said)
        except NeedsColumns as asked:
            self.used = {key: value for key, value in said.items() if key not in asked.missing}
            raise guessed(asked, held.guesses) from None

    def _recalled(self, said: Mapping[str, str]) -> R:
        self.used = said
        return self._read(with_recalled(said, list(said)))


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


def asked_facts(used: Mapping[str, str], asked: NeedsColumns) -> FileFacts:
    """What is kept of a file that asks."""
    return FileFacts(used, asked.headers, asked.missing, questions=asked.questions, found=asked.found)
