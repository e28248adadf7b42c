"""Which rows are totals although they are not called so, or after what they sum?  Their numbers tell."""

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence

from models.intake.cells.number_texts import bare, decimal_of
from models.intake.grid import Cell
from models.intake.shape.row_kinds import Row
from models.intake.shape.row_words import is_phrase, names_part
from models.intake.shape.total_words import sums_needed

_MOST_WORDLESS = 20  # rows without words that are compared with the sums above them
_MOSTLY = 0.5  # of the rows called after a pallet; common practice, no source
_COUNTED = 2  # cells: a count, and words for what it counts
_MOST_NAMED = 200  # rows with "total" among their words


def without_wordless_sums(
    rows: Sequence[Row], kept: list[int], looked: Sequence[int], name: int
) -> tuple[list[int], list[int]]:
    """The data rows and the totals among them that have no words: numbers that repeat the sum of a column above.

    `looked` are the data rows that may be such.
    """
    sums: list[int] = []
    still = set(kept) if looked else set()
    wordless = [
        index
        for index in looked
        if index in still and _cell(rows[index], name) == "" and not any(_has_letters(cell) for cell in rows[index])
    ]
    for index in wordless[-_MOST_WORDLESS:]:
        above = [rows[other] for other in kept if other < index]
        if len(above) > 1 and any(_sums_up(above, place, cell) for place, cell in enumerate(rows[index]) if cell != ""):
            kept = [other for other in kept if other != index]
            sums.append(index)
    return kept, sums


def without_named_sums(
    rows: Sequence[Row], kept: list[int], looked: Sequence[int], marks: Sequence[int], name: int
) -> tuple[list[int], list[int]]:
    """The data rows and the totals among them that are called after what they sum: "Kitchen total".

    Such words may be goods: their numbers must be the sums of the rows since the total or heading before them.
    `looked` are the data rows that may be such.

    Examples
    --------
    >>> rows = [["Mug", 2, 9], ["Jug", 1, 3], ["Kitchen total", 3, ""], ["Total gym", 1, 90]]
    >>> without_named_sums(rows, [0, 1, 2, 3], [2, 3], [], 0)
    ([0, 1, 3], [2])
    """
    sums: list[int] = []
    needed = {index: wanted for index in looked if (wanted := sums_needed(_cell(rows[index], name)))}
    numbers = _Numbers(rows, kept)
    for index in list(needed)[:_MOST_NAMED]:
        begun = max((mark for mark in (*sums, *marks) if mark < index), default=-1)
        first, last = bisect_right(kept, begun), bisect_left(kept, index)
        same = sum(
            numbers.sum_of(place, first, last) == round(number, 2)
            for place, cell in enumerate(rows[index])
            if place != name and (number := _quick_number(cell)) > 1
        )
        if first < last and same >= needed[index]:
            sums.append(index)
            numbers.leave_out(bisect_left(kept, index))
    gone = set(sums)
    return [index for index in kept if index not in gone], sums


def without_summed_headings(
    rows: Sequence[Row],
    kept: list[int],
    looked: Sequence[int],
    marks: Sequence[int],
    columns: Mapping[str, int],
    name: int,
) -> tuple[list[int], list[int]]:
    """The data rows, and the headings among them that carry the sums of the rows below: "PALLET 1", 5, 91.00.

    Parameters
    ----------
    rows : sequence of sequences of Cell
        The sheet.
    kept : list of int
        Positions of the data rows.
    looked : sequence of int
        Those of them that may be headings.
    marks : sequence of int
        Positions of totals and other headings, which end a part.
    columns : mapping
        {canonical: position of the column}; a quantity that is told must be the sum.
    name : int
        Position of the column that names the goods.

    Examples
    --------
    >>> rows = [["PALLET 1", 5, 91], ["Mug", 2, 9.5], ["Kettle", 3, 24], ["Box 12", 1, 4]]
    >>> without_summed_headings(rows, [0, 1, 2, 3], [0, 3], [], {"quantity": 1}, 0)
    ([1, 2, 3], [0])
    """
    named = [index for index in looked if names_part(str(_cell(rows[index], name)))][:_MOST_NAMED]
    ends = sorted((*marks, *named))
    summed: dict[int, bool] = {}
    for index in named:
        behind = bisect_right(ends, index)
        end = ends[behind] if behind < len(ends) else len(rows)
        below = [rows[other] for other in kept[bisect_right(kept, index) : bisect_left(kept, end)]]
        if below:
            summed[index] = _heads(rows[index], below, columns.get("quantity", name), name)
    most = sum(summed.values()) >= _MOSTLY * len(summed)  # a heading whose sum is wrong is one beside the others
    gone = set(summed) if summed and most and any(summed.values()) else set()
    return [index for index in kept if index not in gone], sorted(gone)


def count_of_rows(rows: Sequence[Row], kept: Sequence[int], name: int) -> list[int]:
    """The last data row where it names no goods and only counts the rows above it: "4", "record(s) downloaded".

    Examples
    --------
    >>> rows = [["O1", "Mug", 2], ["O2", "Jug", 1], ["2", "", "records found"]]
    >>> count_of_rows(rows, [0, 1, 2], 1)
    [2]
    """
    last = rows[kept[-1]] if len(kept) > 1 else ()
    filled = [cell for cell in last if cell != ""]
    words = [cell for cell in filled if isinstance(cell, str) and is_phrase(cell)]
    counts = any(_quick_number(cell) == len(kept) - 1 for cell in filled)
    return [kept[-1]] if len(filled) == 1 + len(words) == _COUNTED and counts and _cell(last, name) == "" else []


class _Numbers:
    """The numbers of columns, each read once: many sums are held against the same rows."""

    def __init__(self, rows: Sequence[Row], kept: Sequence[int]) -> None:
        self._rows, self._kept = rows, kept
        self._columns: dict[int, list[float]] = {}
        self._left_out: list[int] = []

    def sum_of(self, place: int, first: int, last: int) -> float:
        """Of some of the kept rows."""
        if place not in self._columns:
            self._columns[place] = [_quick_number(_cell(self._rows[index], place)) for index in self._kept]
            for at in self._left_out:
                self._columns[place][at] = 0.0
        return round(sum(self._columns[place][first:last]), 2)

    def leave_out(self, at: int) -> None:
        """A row that is a sum itself."""
        self._left_out.append(at)
        for numbers in self._columns.values():
            numbers[at] = 0.0


def _heads(row: Row, below: Sequence[Row], quantity: int, name: int) -> bool:
    """Its quantity, or any number where it has none, is the sum of the rows below."""
    counted = _quick_number(_cell(row, quantity)) if quantity != name else 0.0
    told = [quantity] if counted else [place for place in range(len(row)) if place != name]
    return any(
        ours > 0 and ours == round(_quick_number(_cell(row, place)), 2)
        for place in told
        for ours in [_sum_of(below, place)]
    )


def _sum_of(above: Sequence[Row], place: int) -> float:
    return round(sum(_quick_number(_cell(row, place)) for row in above), 2)


def _cell(row: Row, place: int) -> Cell:
    return row[place] if place < len(row) else ""


def _has_letters(cell: Cell) -> bool:
    return isinstance(cell, str) and any(map(str.isalpha, cell))


def _sums_up(above: Sequence[Row], place: int, cell: Cell) -> bool:
    total = _quick_number(cell)
    numbers = [_quick_number(_cell(row, place)) for row in above]
    return total > 1 and sum(1 for number in numbers if number) > 1 and abs(sum(numbers) - total) < 0.005


def _quick_number(cell: Cell) -> float:
    if isinstance(cell, int | float):
        return float(cell)
    core = bare(cell.strip("$€£ "))[0] if isinstance(cell, str) and len(cell) < 40 else ""
    number = decimal_of(core, comma=False)[0] if core else None
    return 0.0 if number is None else float(number)
