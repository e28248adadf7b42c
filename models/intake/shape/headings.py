"""Which condition do headings give the goods below them?  Lots, the pallets in them, and sections of the list.

A section ends at the next heading, also where that one names no condition: what went before may not be meant for the
goods below it.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from models.intake.grid import Cell
from models.intake.shape.lot_phrases import part_condition
from models.intake.shape.outline import Outline
from models.intake.shape.row_words import reads_like_note


@dataclass(frozen=True)
class Heading:
    """One heading; positions in the grid's rows, `last` included."""

    index: int
    last: int
    condition: str  # its wording, "" for none


def headings_of(outline: Outline) -> list[Heading]:
    """Outer headings before inner ones; none where one alone stands above the table, which is a title.

    Parameters
    ----------
    outline : Outline
        The table without its lines.
    """
    parts = outline.parts
    if len(parts) == 1 and parts[0].index in outline.titles:
        parts = ()
    sections = list(_sections(outline))
    last = max(outline.sorted_rows.data, default=-1)
    starts = sorted([*sections, *(part.index for part in parts), last + 1])
    ordered = sorted(parts, key=lambda part: not part.is_lot)
    return [
        *(Heading(part.index, part.last, part_condition(part.heading)) for part in ordered),
        *(
            Heading(index, starts[bisect_right(starts, index)] - 1, part_condition(outline.texts([index])[0]))
            for index in sections
        ),
    ]


def _sections(outline: Outline) -> Iterator[int]:
    """Words alone with goods below them, that are no note to the reader."""
    last = max(outline.sorted_rows.data, default=-1)
    for index in outline.sorted_rows.notes:
        if index < last and index in outline.rows and not reads_like_note(outline.texts([index])[0]):
            yield index


def below_headings(headings: Sequence[Heading], kept: Sequence[int], whole: str) -> list[Cell]:
    """The wording for each kept row: of the innermost heading above it that names one, else of the whole file.

    Examples
    --------
    >>> below_headings([Heading(1, 9, "new"), Heading(4, 6, "salvage")], [2, 5, 8, 12], "")
    ['new', 'salvage', 'new', '']
    """
    cells: list[Cell] = [whole] * len(kept)
    for heading in headings:
        if heading.condition:
            first, end = bisect_left(kept, heading.index), bisect_right(kept, heading.last)
            cells[first:end] = [heading.condition] * (end - first)
    return cells
