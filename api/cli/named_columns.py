"""Columns named on the command line: for every file that has them, so one column may have several names."""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from typing import Protocol, TypeVar

from models.values.errors import NeedsColumns, Rejected
from models.values.questions import NO_COLUMN, is_answer

Pairs = Sequence[tuple[str, str]]  # (canonical column, header)

_MOST_LISTED = 40  # headers of one file


class Read(Protocol):
    """What reading a file gives: the header it took for each column."""

    @property
    def mapping(self) -> Mapping[str, str]: ...


class Whole(Read, Protocol):
    """What reading a file gives: all its headers too, and columns named by a header it has not got."""

    @property
    def headers(self) -> Sequence[str]: ...

    @property
    def unfound(self) -> Sequence[str]: ...


R = TypeVar("R", bound=Read)


class Named:
    """The headers that may stand for each of one kind of file's columns, in the order given."""

    def __init__(self, pairs: Pairs, columns: Sequence[str]) -> None:
        self._headers: dict[str, list[str]] = {}
        for column, header in pairs:
            if column in columns or is_answer(column):
                self._headers.setdefault(column, []).append(header)

    def read(self, read: Callable[[Mapping[str, str]], R]) -> R:
        """Read with the first headers given; where the file has not got one, again with the next."""
        while True:
            mapping = {column: headers[0] for column, headers in self._headers.items()}
            try:
                found = read(mapping)
            except NeedsColumns as error:
                ruled_out = [one.key for one in error.questions if one.why]
                if not self._passed_over(dict.fromkeys(self._headers, error.headers)) and not self._next_of(ruled_out):
                    raise
            else:
                if not self._passed_over({column: (header,) for column, header in found.mapping.items()}):
                    return found

    def _next_of(self, keys: Sequence[str]) -> bool:
        """Drop answers that a file's own cells rule out where another was given; True if there were any."""
        several = [self._headers[key] for key in keys if len(self._headers.get(key, ())) > 1]
        for answers in several:
            answers.pop(0)
        return bool(several)

    def _passed_over(self, there: Mapping[str, Sequence[str]]) -> bool:
        """Drop headers that the file has not got where another was given; True if there were any."""
        missed = [
            headers
            for column, headers in self._headers.items()
            if len(headers) > 1 and not _is_settled(column, headers[0], there.get(column, ()))
        ]
        for headers in missed:
            headers.pop(0)
        return bool(missed)


def _is_settled(column: str, header: str, there: Sequence[str]) -> bool:
    """True for an answer, which is about no header, and for a header that the file has."""
    return is_answer(column) or header == NO_COLUMN or _plain(header) in map(_plain, there)


def require_used(pairs: Pairs, files: Mapping[str, Whole]) -> None:
    """Rejected, naming the headers there are, if a pair's header is in none of the files."""
    named = Counter(name for name, _ in pairs)
    missed = [
        f"--map {name}={header}"
        for name, header in pairs
        if not any(_has(file, name, header, named[name] == 1) for file in files.values())
    ]
    if missed:
        there = "; ".join(f"{path}: {_listed(file.headers)}" for path, file in files.items())
        raise Rejected(f"{', '.join(missed)}: no file has that header. The headers are: {there}.")


def _has(file: Whole, column: str, header: str, alone: bool) -> bool:
    """True for a header the file has, be it only one line of a header in two."""
    if _is_settled(column, header, file.headers):
        return True
    return alone and column in file.mapping and column not in file.unfound


def _listed(headers: Sequence[str]) -> str:
    more = f" and {len(headers) - _MOST_LISTED} more" if len(headers) > _MOST_LISTED else ""
    return ", ".join(headers[:_MOST_LISTED]) + more


def _plain(header: str) -> str:
    return " ".join(header.casefold().split())
