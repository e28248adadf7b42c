"""Units by size in columns of their own: S, M, L, XL.  One item in a run of sizes; its units are the sum of the run.

Common practice, no source.
"""

import re
from collections.abc import Collection, Sequence

from models.intake.grid import Cell, is_blank, written_cell
from models.values.problems import Caution

Row = Sequence[Cell]

_LETTERS = re.compile(r"(?:x{0,4}s|s/m|m|m/l|l|x{1,5}l|[2-6]xl?|l/xl|one ?size|os)", re.IGNORECASE)
_AGES = re.compile(r"(?:nb|\d{1,2}(?:-\d{1,2})?\s?(?:m|t|y|mo|yr))", re.IGNORECASE)
_NUMBERS = re.compile(r"\d{1,2}(?:[.,]5|½)?")
DISAGREES = "the quantity is not the sum of its sizes"

_FEWEST = 3  # columns that make a run
_FEWEST_NUMBERS = 4  # where they are numbers: columns called 1, 2, 3 may be anything
_MOST = 0.9  # of the cells must be counts
_LABEL = re.compile(
    r"(?:grand |sub)?totals?:?|summe:?|gesamt:?|total g[eé]n[eé]ral:?|suma:?|totale:?|totaal:?", re.IGNORECASE
)
_COUNT = re.compile(r"\d{1,4}(?:\.0+)?")


def size_places(names: Sequence[Cell], samples: Sequence[Sequence[Cell]]) -> tuple[int, ...]:
    """Positions of neighbouring columns that are called by sizes and hold counts, () where there is no run.

    Parameters
    ----------
    names : sequence of Cell
        The headers.
    samples : sequence of sequences of Cell
        Some cells of each column.

    Examples
    --------
    >>> size_places(["Style", "S", "M", "L", "Retail"], [["Polo"], ["2"], [""], [4], ["20"]])
    (1, 2, 3)
    >>> size_places(["Item", "S", "M"], [["Polo"], ["2"], ["4"]])
    ()
    """
    kinds = [_kind(name) if _counts(cells) else "" for name, cells in zip(names, samples, strict=True)]
    runs: list[list[int]] = [[]]
    for place, kind in enumerate(kinds):
        if runs[-1] and kind != kinds[runs[-1][-1]]:
            runs.append([])
        if kind:
            runs[-1].append(place)
    fitting = [run for run in runs if run and len(run) >= (_FEWEST_NUMBERS if kinds[run[0]] == "number" else _FEWEST)]
    longest = max(fitting, key=len, default=[])
    return tuple(longest) if any(cell != "" for place in longest for cell in samples[place]) else ()


def _kind(name: Cell) -> str:
    text = written_cell(name).strip().removeprefix("Size ").removeprefix("SIZE ")
    for kind, pattern in (("letter", _LETTERS), ("age", _AGES), ("number", _NUMBERS)):
        if pattern.fullmatch(text):
            return kind
    return ""


def _counts(cells: Sequence[Cell]) -> bool:
    told = [_count(cell) is not None for cell in cells if not _LABEL.fullmatch(written_cell(cell).strip())]
    return sum(told) >= _MOST * len(told)


def _count(cell: Cell) -> int | None:
    """Units in a cell, 0 for blank, None where it is no count."""
    text = written_cell(cell).strip()
    if is_blank(text):
        return 0
    return int(float(text)) if _COUNT.fullmatch(text) else None


def without_columns(
    names: Sequence[Cell], samples: Sequence[Sequence[Cell]], places: Sequence[int]
) -> tuple[list[Cell], list[Sequence[Cell]]]:
    """Headers and samples in which these columns hold nothing, so that none of them is taken for the whole count.

    Examples
    --------
    >>> without_columns(["Style", "S"], [["Polo"], ["2"]], (1,))
    (['Style', ''], [['Polo'], []])
    """
    blank = set(places)
    return (
        ["" if place in blank else name for place, name in enumerate(names)],
        [[] if place in blank else cells for place, cells in enumerate(samples)],
    )


def units_of_sizes(rows: Sequence[Row], places: Sequence[int]) -> list[Cell]:
    """The sum of each row's run, "" where it says nothing.

    Examples
    --------
    >>> units_of_sizes([["Polo", "2", "", 4], ["Cap"]], (1, 2, 3))
    [6, '']
    """
    return [_sum([row[place] for place in places if place < len(row)]) for row in rows]


def _sum(cells: Sequence[Cell]) -> Cell:
    if all(is_blank(written_cell(cell)) for cell in cells):
        return ""
    counts = [_count(cell) for cell in cells]
    return "not a count" if None in counts else sum(count for count in counts if count is not None)


def size_cautions(names: Sequence[Cell], places: Sequence[int], counted: Collection[str]) -> tuple[Caution, ...]:
    """How sizes were counted; `counted` are the columns that the table has.

    Examples
    --------
    >>> size_cautions(["S", "M", "L"], (0, 1, 2), ())[0].what
    "The file counts units by size, in 'S' to 'L': the units of a line are their sum."
    """
    if not places or "quantity" in counted:
        return ()
    first, last = (written_cell(names[place]).strip() for place in (places[0], places[-1]))
    what = f"The file counts units by size, in '{first}' to '{last}': the units of a line are their sum."
    return (Caution(what, "One line holds several sizes: odd sizes sell slower than the middle of the run."),)


def disagreeing(units: Sequence[Cell], quantity: Sequence[Cell]) -> list[int]:
    """Rows whose own quantity is a plain number and not the sum of their sizes; told, and kept as written.

    Examples
    --------
    >>> disagreeing([6, 4, ""], ["6", 5, "2"])
    [1]
    """
    return [
        index
        for index, (total, said) in enumerate(zip(units, quantity, strict=True))
        if isinstance(total, int) and (count := _count(said)) and count != total
    ]
