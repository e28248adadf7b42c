"""Columns named on the command line: for every file that has them, so one column may have several names."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Protocol, TypeVar

from models.values.errors import NeedsColumns

PRICE_BASIS = "sold_price_is"  # not a column: what the price is of, a unit or a row
Pairs = Sequence[tuple[str, str]]  # (canonical column, header)


class Read(Protocol):
    """What reading a file gives: the header it took for each column."""

    @property
    def mapping(self) -> Mapping[str, str]: ...


R = TypeVar("R", bound=Read)


class Named:
    """The headers that may stand for each of one kind of file's columns, in the order given."""

    def __init__(self, pairs: Pairs, columns: Sequence[str]) -> None:
        self._headers: dict[str, list[str]] = {}
        for column, header in pairs:
            if column in columns:
                self._headers.setdefault(column, []).append(header)

    def read(self, read: Callable[[Mapping[str, str]], R]) -> R:
        """Read with the first headers given; where the file has not got one, again with the next."""
        while True:
            mapping = {column: headers[0] for column, headers in self._headers.items()}
            try:
                found = read(mapping)
            except NeedsColumns as error:
                if not self._passed_over(dict.fromkeys(self._headers, error.headers)):
                    raise
            else:
                if not self._passed_over({column: (header,) for column, header in found.mapping.items()}):
                    return found

    def _passed_over(self, there: Mapping[str, Sequence[str]]) -> bool:
        """Drop headers that the file has not got where another was given; True if there were any."""
        missed = [
            headers
            for column, headers in self._headers.items()
            if len(headers) > 1 and _plain(headers[0]) not in map(_plain, there.get(column, ()))
        ]
        for headers in missed:
            headers.pop(0)
        return bool(missed)


def unused(pairs: Pairs, found: Iterable[str]) -> list[tuple[str, str]]:
    """Pairs whose header is none of those found in the files."""
    there = {_plain(header) for header in found}
    return [(name, header) for name, header in pairs if name != PRICE_BASIS and _plain(header) not in there]


def _plain(header: str) -> str:
    return " ".join(header.casefold().split())
