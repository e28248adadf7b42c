"""What does a file say of its own sums?  Totals rows, headings of pallets, titles: to be held against the lines."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import replace

from models.intake.cells.number_texts import bare, decimal_of
from models.intake.cells.said import said_cases, said_tags, said_units
from models.intake.grid import Cell, row_text, written_cell
from models.intake.shape.outline import Outline
from models.intake.shape.rows import SortedRows
from models.intake.shape.total_words import total_of_all, total_of_money, total_of_part, total_of_rows
from models.values.problems import StatedTotals

_LONGEST_TOLD = 80  # characters of a row's words
_SIGNS = "$€£¥ \u00a0"


class StatedReader:
    """Knows how the file writes amounts, where its columns stand, and whether its quantities are cases."""

    def __init__(self, outline: Outline, comma: bool, digits: int, cases: bool) -> None:
        self._outline = outline
        self._comma = comma
        self._digits = digits
        self._cases = cases

    def of_words(self, index: int, covers: tuple[int, int] | None) -> StatedTotals | None:
        """What a title or heading says; `covers` are positions in the grid."""
        text = row_text(self._outline.rows[index])
        said = StatedTotals(said_units(text), said_tags(text, self._comma, self._digits), 0, "", cases=said_cases(text))
        return self._placed(said, index, covers)

    def of_heading(self, index: int, covers: tuple[int, int]) -> StatedTotals | None:
        """What the heading of a part says, in its columns too where it fills that of the quantity."""
        told = self._number(self._outline.rows[index], "quantity", 0)
        return self.of_words(index, covers) if told is None else self.of_total(index, covers)

    def of_total(self, index: int, covers: tuple[int, int] | None) -> StatedTotals | None:
        """What a totals row says, in its columns, else in its words."""
        row = self._outline.rows[index]
        text = row_text(row)
        number, tags = self._number(row, "quantity", 0), self._number(row, self._tag_column(), self._digits)
        if tags is None and total_of_money(text):  # the amount stands in the first free column
            number = None
        counts_cases = self._cases or "case" in text.casefold() or said_cases(text) is not None
        units = None if counts_cases or total_of_rows(text) else number
        cases = number if counts_cases and not total_of_rows(text) else None
        said = StatedTotals(
            units if units is not None else said_units(text),
            tags if tags is not None else said_tags(text, self._comma, self._digits),
            0,
            "",
            part=total_of_part(text),
            cases=cases if cases is not None else said_cases(text),
        )
        return self._placed(said, index, None if total_of_all(text) else covers)

    def _tag_column(self) -> str:
        return "tag_line" if "tag_line" in self._outline.places else "tag_each"

    def _number(self, row: Sequence[Cell], column: str, digits: int) -> float | None:
        place = self._outline.places.get(column, len(row))
        cell = row[place] if place < len(row) else ""
        if isinstance(cell, int | float):
            return float(cell) * float(10**digits)
        core, below = bare(written_cell(cell).strip(_SIGNS + "ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
        number = decimal_of(core, self._comma)[0] if core and not below else None
        return None if number is None else float(number) * float(10**digits)

    def _placed(self, said: StatedTotals, index: int, covers: tuple[int, int] | None) -> StatedTotals | None:
        if said.units is None and said.tags is None and said.cases is None:
            return None
        first = self._outline.first_row
        rows = None if covers is None else (covers[0] + first, covers[1] + first)
        where = " ".join(row_text(self._outline.rows[index]).split())[:_LONGEST_TOLD]
        return replace(said, row=index + first, where=where, covers=rows, part=said.part and rows is not None)


def totals_said(outline: Outline, comma: bool, digits: int, cases: bool = False) -> tuple[StatedTotals, ...]:
    """Everything the file says of its sums, in its order.

    Parameters
    ----------
    outline : Outline
        The table without its lines.
    comma : bool
        The file writes a decimal comma.
    digits : int
        Digits after the decimal sign of the currency.
    cases : bool
        The file's quantities are cases.

    Examples
    --------
    >>> from models.intake.grid import Grid
    >>> from models.intake.shape.outline import outline_of
    >>> rows = [["Total units: 3"], ["Item", "Qty"], ["Mug", 2], ["Jug", 1], ["Total", 4]]
    >>> grid, places = Grid("", rows, 1), {"description": 0, "quantity": 1}
    >>> outline = outline_of(grid, range(1), SortedRows((2, 3), (4,), (), ()), places)
    >>> for told in totals_said(outline, False, 2):
    ...     print(told.units, told.row, told.covers)
    3.0 1 None
    4.0 5 None
    """
    reader, rows, parts = StatedReader(outline, comma, digits, cases), outline.sorted_rows, outline.parts
    headed = {part.index for part in parts}
    said = [reader.of_words(index, None) for index in (*outline.titles, *rows.notes) if index not in headed]
    said += [reader.of_heading(part.index, (part.first, part.last)) for part in parts]
    totals = zip(rows.totals, _covered(rows), strict=True)
    said += [reader.of_total(index, covers) for index, covers in totals if not _sums_what_is_not_there(rows, covers)]
    return tuple(sorted((told for told in said if told is not None), key=lambda told: told.row))


def _covered(sorted_rows: SortedRows) -> list[tuple[int, int] | None]:
    """A total sums the rows since the total or heading before it; where none stand between, or where it is the only
    total and ends the table, the whole file.
    """
    data = sorted_rows.data
    marks = sorted([*sorted_rows.totals, *sorted_rows.parts])
    covered: list[tuple[int, int] | None] = []
    for index in sorted_rows.totals:
        place = bisect_left(marks, index)
        first = bisect_left(data, marks[place - 1]) if place else 0
        behind = bisect_left(data, index)
        ends = behind == len(data)
        if first >= behind and not ends and behind:  # carried over to the next page
            first = 0
        whole = index in sorted_rows.wholes or first >= behind or (ends and len(sorted_rows.totals) == 1)
        covered.append(None if whole else (data[first], data[behind - 1]))
    return covered


def _sums_what_is_not_there(rows: SortedRows, covers: tuple[int, int] | None) -> bool:
    if covers is None or not rows.not_there:
        return False
    first, last = bisect_left(rows.data, covers[0]), bisect_right(rows.data, covers[1])
    return rows.not_there.issuperset(rows.data[first:last])
