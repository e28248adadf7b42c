"""Which goods stand below words that say they are not in the lot?  A total that counts them or not decides, else words.

Common practice, no source: goods below "Removed from the load:" are not counted, and named.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from models.intake.grid import Grid, row_text
from models.intake.shape.gone_words import Gone, gone_below
from models.intake.shape.total_proofs import Sums
from models.values.problems import Caution

BELOW = "below words that say it is not in the lot"
_MOST_COMPARED = 10_000  # totals x headings
_LONGEST_TOLD = 60  # characters of a heading


@dataclass(frozen=True)
class Section:
    """Goods below such words, by positions in the grid's rows; `counted` by a total of the file, None if none tells."""

    heading: int
    rows: tuple[int, ...]
    gone: bool
    counted: bool | None


def gone_sections(
    grid: Grid,
    heads: Sequence[int],
    data: Sequence[int],
    ends: Collection[int],
    totals: Sequence[int],
    columns: Mapping[str, int],
) -> tuple[Section, ...]:
    """What stands below each of the headings, and whether it is in the lot.

    Parameters
    ----------
    grid : Grid
        One sheet.
    heads : sequence of int
        Positions of words alone that say so.
    data : sequence of int
        Positions of the rows of goods, rising.
    ends : collection of int
        Positions of other headings, which end such a section as heads and totals do.
    totals : sequence of int
        Positions of totals, rising.
    columns : mapping
        {canonical: position of the column}.

    Examples
    --------
    >>> rows = [["Mug", 2], ["Removed", ""], ["Jug", 1], ["Total", 2]]
    >>> gone_sections(Grid("", rows, 1), [1], [0, 2], [], [3], {"quantity": 1})
    (Section(heading=1, rows=(2,), gone=True, counted=False),)
    """
    marks = sorted({*heads, *ends, *totals, len(grid.rows)})
    below = {
        head: tuple(data[bisect_left(data, head) : bisect_left(data, marks[bisect_right(marks, head)])])
        for head in heads
    }
    below = {head: rows for head, rows in below.items() if rows}
    doubted = {index for rows in below.values() for index in rows}
    if len(doubted) == len(data):
        return tuple(Section(head, rows, False, None) for head, rows in below.items())
    sums = Sums(grid.rows, columns, data, doubted)
    proofs = totals if len(totals) * len(below) <= _MOST_COMPARED else ()
    found = []
    for head, rows in below.items():
        counted = sums.counted(rows[0], proofs)
        said = gone_below(row_text(grid.rows[head])) is Gone.SURE
        found.append(Section(head, rows, said if counted is None else not counted, counted))
    return tuple(found)


def section_cautions(grid: Grid, sections: Sequence[Section]) -> tuple[Caution, ...]:
    """One caution a heading.

    Examples
    --------
    >>> grid = Grid("", [["Mug", 2], ["Removed:", ""], ["Jug", 1]], 1)
    >>> section_cautions(grid, [Section(1, (2,), True, None)])[0].what
    "1 row below 'Removed:' (row 2) was set aside: by these words it is not in the lot."
    """
    told = []
    for one in sections:
        few = len(one.rows) == 1
        rows, were, they = ("1 row", "was", "it is") if few else (f"{len(one.rows):,} rows", "were", "they are")
        words = f"'{row_text(grid.rows[one.heading])[:_LONGEST_TOLD]}' (row {one.heading + grid.first_row})"
        if one.gone:
            proof = f", and the file's own total leaves {'it' if few else 'them'} out" if one.counted is False else ""
            what = f"{rows} below {words} {were} set aside: by these words {they} not in the lot{proof}."
            told.append(Caution(what, "See that nothing below these words is in the lot."))
        else:
            proof = f", since the file's own total counts {'it' if few else 'them'}" if one.counted else ""
            what = f"{words} may mean that {rows} below {'is' if few else 'are'} not in the lot: kept{proof}."
            told.append(Caution(what, "Ask what is meant, and take out of the file what is not in the lot."))
    return tuple(told)
