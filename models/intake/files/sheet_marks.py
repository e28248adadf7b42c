"""What a workbook's parts say of one sheet beside its cells: hidden rows, lost results, currencies, merged cells."""

from dataclasses import dataclass, field

from models.intake.grid import CellNote

NO_RESULT = "a formula without a stored result"
_MOST_NOTES = 10_000  # a sheet of nothing but formulas is told by its first ones


@dataclass
class Marks:
    """Of one sheet; `merged` holds top, left, bottom, right from 0, both ends included, where the reader knows none."""

    hidden_rows: set[int] = field(default_factory=set)
    notes: list[CellNote] = field(default_factory=list)
    formats: set[tuple[int, str]] = field(default_factory=set)  # position of a column, a currency its numbers show
    merged: list[tuple[int, int, int, int]] = field(default_factory=list)

    def add(self, row: int, place: int | None, value: str, reason: str) -> None:
        """Note one cell that is blank to us but not in the sheet."""
        if len(self.notes) < _MOST_NOTES:
            self.notes.append(CellNote(row, place, value, reason, "left blank"))


def place_of_letters(letters: bytes) -> int:
    """Position of a column by its spreadsheet letters, from 0.

    Examples
    --------
    >>> place_of_letters(b"A"), place_of_letters(b"AB")
    (0, 27)
    """
    place = 0
    for letter in letters:
        place = 26 * place + letter - 64
    return place - 1
