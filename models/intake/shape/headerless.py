"""Does a table begin without a header?  Then its first row looks like those below: numbers where they have numbers."""

from collections.abc import Sequence
from statistics import median

from models.intake.columns.glances import quick_number
from models.intake.grid import Cell

_LOOKED_AT = 50  # rows
_FEWEST = 2  # rows below that a first row can be compared with
_MOSTLY = 0.6  # share of a column's cells


def first_data_row(rows: Sequence[Sequence[Cell]]) -> int | None:
    """Position of the first row where it is data, None where it may be a header.

    A list of one column has no numbers to tell by: there a first row of at least as many words as usual is data.

    Parameters
    ----------
    rows : sequence of sequences of Cell
        The first rows of a sheet, none of which reads like a header.

    Examples
    --------
    >>> first_data_row([["Load 7"], ["Mug", 2, 9.5], ["Jug", 1, 4.0], ["Pot", 3, 7.0]])
    1
    >>> print(first_data_row([["Ware", "Wert"], ["Mug", 2], ["Jug", 1], ["Pot", 3]]))
    None
    """
    counts = [len(row) - row.count("") for row in rows]
    usual = median([count for count in counts if count] or [0])
    start = next((place for place, count in enumerate(counts) if count > 1 and count >= usual / 2), None)
    if start is None:
        return _first_of_a_list(rows)
    below = [row for row in rows[start + 1 : start + 1 + _LOOKED_AT] if row.count("") < len(row)]
    numeric = [place for place in range(len(rows[start])) if _holds_numbers(below, place)]
    alike = sum(_is_number(rows[start][place]) for place in numeric)
    return start if len(below) >= _FEWEST and numeric and alike > len(numeric) / 2 else None


def _first_of_a_list(rows: Sequence[Sequence[Cell]]) -> int | None:
    words = [len(str(row[0]).split()) if row else 0 for row in rows]
    filled = [place for place, count in enumerate(words) if count]
    if len(filled) <= _FEWEST:
        return None
    usual = median([words[place] for place in filled[1:]])
    return filled[0] if words[filled[0]] >= max(usual, _FEWEST) else None


def _holds_numbers(rows: Sequence[Sequence[Cell]], place: int) -> bool:
    filled = [row[place] for row in rows if place < len(row) and row[place] != ""]
    return len(filled) >= _FEWEST and sum(map(_is_number, filled)) >= _MOSTLY * len(filled)


def _is_number(cell: Cell) -> bool:
    return quick_number(cell) is not None
