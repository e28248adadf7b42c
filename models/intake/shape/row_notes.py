"""What must be told of single data rows?  Damaged cells, formulas without a result, rows that the file hides."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from models.intake.files.sheet_marks import NO_RESULT
from models.intake.grid import Cell, CellNote, Grid
from models.values.arrays import IntArray
from models.values.problems import Caution

_MOST_NAMED = 8


@dataclass(frozen=True)
class RowNote:
    """Something to tell of a data row: its place, the canonical column ("" for the whole row), and what was done."""

    index: int
    column: str
    value: Cell
    reason: str
    done: str


def row_notes(
    told: Iterable[CellNote], hidden_rows: Iterable[int], rows: IntArray, places: Mapping[str, int]
) -> tuple[RowNote, ...]:
    """The notes that touch a data row and a column that is read.

    Parameters
    ----------
    told : iterable of CellNote
        By row number and position.
    hidden_rows : iterable of int
        Row numbers.
    rows : ndarray of shape (n_rows,)
        Row numbers of the data rows, rising.
    places : mapping
        {canonical: position of the column}.

    Examples
    --------
    >>> notes = [CellNote(3, 1, "12", "odd", "kept"), CellNote(1, 0, "", "not a data row", "")]
    >>> row_notes(notes, [3], np.array([2, 3]), {"quantity": 1})[0]
    RowNote(index=1, column='quantity', value='12', reason='odd', done='kept')
    """
    columns: dict[int | None, str] = {place: column for column, place in places.items()} | {None: ""}
    hidden = [CellNote(row, None, "", "the row is hidden in the file", "kept as a row") for row in sorted(hidden_rows)]
    notes = []
    for note in (*told, *hidden):
        index = int(np.searchsorted(rows, note.row))
        if note.place in columns and index < len(rows) and rows[index] == note.row:
            notes.append(RowNote(index, columns[note.place], note.value, note.reason, note.done))
    return tuple(notes)


def shape_cautions(
    notes: Sequence[RowNote], grid: Grid, rows: IntArray, relaid: Sequence[int] = ()
) -> tuple[Caution, ...]:
    """One caution for all hidden rows, one for all formulas without a result, one for headers in another order.

    Examples
    --------
    >>> [caution.what for caution in shape_cautions([], Grid("", [], 1, hidden_rows=frozenset({3})), np.array([2, 3]))]
    ['1 row is hidden in the file (row 3): it was read like the others.']
    """
    cautions = []
    if grid.on_its_side:
        what = (
            "The table lies on its side: each column was read as one row, and row numbers count the columns (A is 1)."
        )
        cautions.append(Caution(what, "Look at some of these lines."))
    if grid.beside:
        texts = ", ".join(grid.beside[:_MOST_NAMED])
        what = f"Only the table of the archive was read, and not the text beside it: {texts}."
        cautions.append(Caution(what, "Read it: it may say what is not in the lot, or in what condition it is."))
    if grid.blind:
        what = f"Which rows are hidden cannot be seen in a file of this kind ({grid.blind}): all rows were read."
        cautions.append(Caution(what, "Open the file and look whether rows are hidden or filtered."))
    hidden = [row for row in rows.tolist() if row in grid.hidden_rows] if grid.hidden_rows else []
    if hidden:
        what = (
            f"{_counted(hidden, 'row')} hidden in the file ({_listed(hidden)}): {_they(hidden)} read like the others."
        )
        cautions.append(
            Caution(what, "Ask whether hidden rows belong to it; take them out of the file if they do not.")
        )
    if relaid:
        where = _listed([index + grid.first_row for index in relaid])
        what = f"The columns change their order inside the file ({where}): the rows below were read by the new header."
        cautions.append(Caution(what, "Look at some of these lines."))
    formulas = [note for note in notes if note.reason == NO_RESULT]
    if formulas:
        what = f"{_counted(formulas, 'cell')} a formula whose result is not stored in the file: blank here."
        cautions.append(Caution(what, "Open the file in a spreadsheet program, save it there, and upload that."))
    return tuple(cautions)


def _counted(things: Sequence[object], name: str) -> str:
    return f"1 {name} is" if len(things) == 1 else f"{len(things):,} {name}s are"


def _they(things: Sequence[object]) -> str:
    return "it was" if len(things) == 1 else "they were"


def _listed(rows: Sequence[int]) -> str:
    named = ", ".join(map(str, rows[:_MOST_NAMED])) + (", ..." if len(rows) > _MOST_NAMED else "")
    return f"row{'' if len(rows) == 1 else 's'} {named}"
