"""One small file, or a few that belong together, with what must come out: a table, problems, cautions or a question."""

import textwrap
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from unit.intake_files import Rows, delimited

from models.values.errors import Rejected

Files = tuple[tuple[str, bytes], ...]


@dataclass(frozen=True)
class Case:
    """What is not said must be empty: no problems, no questions.

    `table` has columns of `Lines` or `Sales`: money in minor units, None for blank, conditions and days as words.
    `problems` are {row: column}, with "*" for any column; `aside` are the rows of them that are not used.
    Each of `says` must stand in one caution or problem, "a|b" in either wording; none of `unsaid` may stand anywhere.
    `asks` are keys of the mapping that must be asked for; `answers` is then given and `table` must come out.
    `may_ask`: asking for one of these is as right as the table.
    """

    name: str
    files: Files
    history: bool = False
    table: Mapping[str, list[Any]] = field(default_factory=dict)
    problems: Mapping[int, str] = field(default_factory=dict)
    aside: tuple[int, ...] = ()
    says: tuple[str, ...] = ()
    unsaid: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()
    answers: Mapping[str, str] = field(default_factory=dict)
    may_ask: tuple[str, ...] = ()
    rejected: type[Rejected] | None = None
    units: int | None = None  # of all lines, or of all rows that sold
    money: int | None = None  # sold price times quantity of all sales [minor units]
    stated: tuple[tuple[int | None, int | None], ...] | None = None  # units and tags that the file itself states
    currency: str = "USD"


def plain(text: str, encoding: str = "utf-8") -> bytes:
    """A text file of the lines of an indented literal."""
    return textwrap.dedent(text).lstrip("\n").encode(encoding)


def manifest(name: str, data: bytes | str | Rows, filename: str = "manifest.csv", **expected: Any) -> Case:
    """A manifest from bytes, from the text of a CSV file, or from rows."""
    return Case(name, ((filename, _bytes(data)),), **expected)


def history(name: str, data: bytes | str | Rows, filename: str = "sold.csv", **expected: Any) -> Case:
    """A sold history of one file."""
    return Case(name, ((filename, _bytes(data)),), history=True, **expected)


def histories(name: str, files: Mapping[str, str], **expected: Any) -> Case:
    """A sold history of several files."""
    return Case(name, tuple((filename, plain(text)) for filename, text in files.items()), history=True, **expected)


def _bytes(data: bytes | str | Rows) -> bytes:
    if isinstance(data, bytes):
        return data
    return plain(data) if isinstance(data, str) else delimited(data)
