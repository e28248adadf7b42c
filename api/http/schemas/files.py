"""What reading a file told, as JSON."""

from collections.abc import Mapping, Sequence
from typing import Self

from pydantic import BaseModel

from api.http.schemas.base import Out
from models.store.records import FileFacts, Page
from models.values.problems import RowProblem


class CautionOut(Out):
    """Something to check; `line` null for the whole file."""

    what: str
    check: str
    line: int | None


class FileOut(Out):
    """rows = kept + set_aside; `headers` and `missing` where columns must be named."""

    mapping: Mapping[str, str]
    headers: Sequence[str]
    missing: Sequence[str]
    rows: int
    kept: int
    set_aside: int
    cautions: Sequence[CautionOut]


class RowProblemOut(Out):
    """One cell or row with a doubt; `row` as a spreadsheet shows it."""

    row: int
    column: str
    value: str
    reason: str
    done: str


class ProblemsOut(BaseModel):
    """A page of rows with the counts of the whole file."""

    rows: int
    kept: int
    set_aside: int
    items: list[RowProblemOut]
    next: str | None

    @classmethod
    def of(cls, file: FileFacts, page: Page[RowProblem]) -> Self:
        """The file's counts beside one page of its problems."""
        items = [RowProblemOut.of(one) for one in page.items]
        return cls(rows=file.rows, kept=file.kept, set_aside=file.set_aside, items=items, next=page.next)
