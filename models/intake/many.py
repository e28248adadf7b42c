"""What is told of many cells at once, since of each alone it would take long?  Columns, different cells, tidy texts."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import compress
from operator import itemgetter, not_
from typing import TypeVar

from models.intake.grid import Cell, without_case

C = TypeVar("C")
_TOGETHER = 100  # texts
_SAMPLE, _HARDLY_TWICE = 4000, 0.95  # cells, and the share of them that is different
_PIECE = 1024  # rows that stay in the processor's cache while their columns are taken


def distinct(cells: Iterable[Cell]) -> list[Cell]:
    """The different cells, in their order: a set would be walked to and fro through memory, at twice the time.

    Examples
    --------
    >>> distinct(["b", "a", "b"])
    ['b', 'a']
    """
    return list(dict.fromkeys(cells))


def mostly_distinct(cells: Sequence[C]) -> Sequence[C]:
    """The different cells, or all of them where hardly one comes twice: telling them apart would cost more.

    Examples
    --------
    >>> list(mostly_distinct(["b", "a", "b"]))
    ['b', 'a']
    """
    sample = cells[:_SAMPLE]
    return cells if len(set(sample)) > _HARDLY_TWICE * len(sample) else list(dict.fromkeys(cells))


def are_tidy(texts: Collection[str]) -> bool:
    """Whether each is one line of signs that can be seen, without blanks at its ends; asked of all at once.

    Examples
    --------
    >>> are_tidy(["Blue mug", "", "Élan"]), are_tidy(["Jug", " mug"]), are_tidy(["two\\nlines"])
    (True, False, False)
    """
    lines = "\n".join(("", *texts, ""))
    return "".join(texts).isprintable() and "\n " not in lines and " \n" not in lines


def in_small_letters(texts: Sequence[str]) -> Iterator[tuple[list[str], str]]:
    """A hundred texts at a time, and the lines of them `without_case`, each after a line end.

    Texts of ASCII come by themselves: one sign beyond it among many makes all of them slow.

    Examples
    --------
    >>> list(in_small_letters(["Mug", "Élan", "JUG"]))
    [(['Mug', 'JUG'], '\\nmug\\njug'), (['Élan'], '\\nélan')]
    """
    ascii_alone = list(map(str.isascii, texts))
    for sort in (list(compress(texts, ascii_alone)), list(compress(texts, map(not_, ascii_alone)))):
        for start in range(0, len(sort), _TOGETHER):
            some = sort[start : start + _TOGETHER]
            yield some, without_case("\n".join(("", *some)))


def holding(pieces: Iterable[tuple[list[str], str]], words: Sequence[str]) -> Iterator[str]:
    """Those of the texts that hold one of some words in small letters, once a word: few of many, in little time.

    Parameters
    ----------
    pieces : iterable of (list of str, str)
        From `in_small_letters`.
    words : sequence of str
        In small letters.

    Examples
    --------
    >>> list(holding(in_small_letters(["Mug", "Jug (VOID)", "Sold void"]), ["void", "sold"]))
    ['Jug (VOID)', 'Sold void', 'Sold void']
    """
    for some, small in pieces:
        for word in words:
            if word in small:
                whole = small.count("\n") == len(some)  # no text has line ends of its own
                lines = small.split("\n")[1:] if whole else map(without_case, some)
                yield from [text for text, line in zip(some, lines, strict=True) if word in line]


def columns_of(rows: Sequence[Sequence[Cell]], places: Sequence[int]) -> list[list[Cell]]:
    """The cells that stand in some places of each row, column by column; "" in rows that end before.

    Examples
    --------
    >>> columns_of([["a", "b"], ["c"]], [1, 0])
    [['b', ''], ['a', 'c']]
    """
    columns: list[list[Cell]] = [[] for _ in places]
    for start in range(0, len(rows), _PIECE):
        piece = rows[start : start + _PIECE]
        for column, place in zip(columns, places, strict=True):
            column += _column_of(piece, place)
    return columns


def _column_of(rows: Sequence[Sequence[Cell]], place: int) -> list[Cell]:
    try:
        return list(map(itemgetter(place), rows))  # most tables have rows as long as each other
    except IndexError:
        return [row[place] if place < len(row) else "" for row in rows]
