"""What reading a file told, as JSON."""

from collections.abc import Mapping, Sequence
from typing import Self

from pydantic import BaseModel

from api.http.schemas.base import Out
from models.store.records import FileFacts, Page
from models.values.problems import RowProblem
from models.values.stated_totals import stated_documents


class CautionOut(Out):
    """Something to check; `line` null for the whole file."""

    what: str
    check: str
    line: int | None


class ChoiceOut(Out):
    """One answer: `value` is what the mapping then holds under the key; `samples` are cells of the column it names."""

    value: str
    words: str
    samples: Sequence[str]


class QuestionOut(Out):
    """What must be said first: `guess` is the value we would choose, "" for none, `confidence` 0..1 how sure we are.

    `examples` are cells of the file.  Where `number` is true a whole number is an answer too.
    """

    key: str
    words: str
    choices: Sequence[ChoiceOut]
    examples: Sequence[str]
    number: bool
    guess: str
    confidence: float


class FileOut(Out):
    """rows = kept + set_aside; `headers`, and what `questions` must be answered: their keys are `missing`.

    `found` are the columns that were recognised all the same.  A mapping answers; "-" says: no such column.
    `confidence` says how sure each header of the mapping is, 0..1; what was given is 1.  `remembered` is what of the
    mapping was said of an earlier file with these headers.  `shop_cautions` are about all files of a sold history.
    """

    mapping: Mapping[str, str]
    headers: Sequence[str]
    missing: Sequence[str]
    questions: Sequence[QuestionOut]
    found: Mapping[str, str]
    confidence: Mapping[str, float]
    remembered: Mapping[str, str]
    rows: int
    kept: int
    set_aside: int
    cautions: Sequence[CautionOut]
    shop_cautions: Sequence[CautionOut]


class RowProblemOut(Out):
    """One cell or row with a doubt; `row` as a spreadsheet shows it."""

    row: int
    column: str
    value: str
    reason: str
    done: str


class StatedOut(BaseModel):
    """A total that the file states, and what the lines used from its rows add up to; `covers` null: the whole file."""

    units: float | None
    tags: str | None
    row: int
    where: str
    covers: tuple[int, int] | None
    counted_units: float | None
    counted_tags: str | None
    part: bool
    cases: float | None
    counted_cases: float | None
    agrees: bool


class ProblemsOut(BaseModel):
    """A page of rows with the counts of the whole file."""

    rows: int
    kept: int
    set_aside: int
    items: list[RowProblemOut]
    stated: list[StatedOut]
    next: str | None

    @classmethod
    def of(cls, file: FileFacts, page: Page[RowProblem], currency: str) -> Self:
        """The file's counts and its own totals beside one page of its problems."""
        items = [RowProblemOut.of(one) for one in page.items]
        stated = [StatedOut(**one) for one in stated_documents(file.stated, currency)]
        counts = {"rows": file.rows, "kept": file.kept, "set_aside": file.set_aside}
        return cls(**counts, items=items, stated=stated, next=page.next)
