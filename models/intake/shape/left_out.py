"""Which rows below the header were read as something else than goods?  None goes without a word."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence

from models.intake.cells.reading import ASIDE
from models.intake.cells.said import said_share
from models.intake.columns.glances import quick_number
from models.intake.grid import Grid, row_text
from models.intake.shape.gone_sections import BELOW
from models.intake.shape.row_notes import RowNote
from models.intake.shape.row_words import is_surely_note
from models.intake.shape.rows import SortedRows
from models.values.problems import Caution

MORE_WORDS = "words alone below a full row, as most full rows have them: more words of that row"
CHARGE = "a cost, not goods"
MAY_BE_GOODS = "words alone, which may be goods or a note"
_MOST_NAMED = 6
_FULL, _FEWEST_ABOVE = 3, 2  # filled cells, and rows above a header, that look like goods
_LONGEST_TOLD = 60  # characters of a row's words


def doubted_notes(grid: Grid, sorted_rows: SortedRows) -> list[RowNote]:
    """Rows that may be goods or a note, or go on the row above: set aside, and named.

    Examples
    --------
    >>> grid = Grid("", [["Item", "Qty"], ["Mug", 2], ["Note pad", ""]], 1)
    >>> doubted_notes(grid, SortedRows((1, 2), (), (), (), doubted=(2,)))[0].index
    1
    """
    reasons = dict.fromkeys(sorted_rows.doubted, MAY_BE_GOODS) | dict.fromkeys(sorted_rows.wrapped, MORE_WORDS)
    reasons |= dict.fromkeys(sorted_rows.charges, CHARGE) | dict(sorted_rows.like_totals)
    reasons |= dict.fromkeys(sorted_rows.not_there, BELOW)
    places = {index: place for place, index in enumerate(sorted_rows.data)} if reasons else {}
    return [
        RowNote(places[index], "", row_text(grid.rows[index]), reason, ASIDE)
        for index, reason in sorted(reasons.items())
        if index in places
    ]


def lone_words(grid: Grid, sorted_rows: SortedRows) -> tuple[tuple[int, str], ...]:
    """Words that stand alone above rows of goods, each with the place of the row below.

    Examples
    --------
    >>> grid = Grid("", [["Item", "Qty"], ["Mug", 2], ["UNSOLD", ""], ["Jug", 1]], 1)
    >>> lone_words(grid, SortedRows((1, 3), (), (), (2,)))
    ((1, 'UNSOLD'),)
    """
    data = sorted_rows.data
    below = ((bisect_left(data, index), row_text(grid.rows[index])) for index in sorted_rows.notes)
    return tuple((place, words) for place, words in below if place < len(data))


def left_out_cautions(grid: Grid, sorted_rows: SortedRows) -> tuple[Caution, ...]:
    """One caution where words were read as notes or headings; with it, all rows below the header are accounted for.

    Words that name no goods ("Page 3", "All sales final") are counted with the others, and alone give no caution.

    Examples
    --------
    >>> grid = Grid("", [["Item", "Qty"], ["Mug", 2], ["Total", 2], ["Kitchen", ""]], 1)
    >>> [one.what for one in left_out_cautions(grid, SortedRows((1,), (2,), (), (3,)))]
    ["Beside 1 row of goods the file has 1 row of words that was read as no goods: 'Kitchen' (row 4); and 1 total."]
    """
    said: dict[str, list[int]] = {}
    sure = 0
    for index in sorted_rows.notes:
        text = row_text(grid.rows[index])
        sure += is_surely_note(text)
        if any(map(str.isalpha, text)) and not is_surely_note(text) and not said_share(text):
            said.setdefault(text[:_LONGEST_TOLD], []).append(index + grid.first_row)
    if not said:
        return ()
    count = sum(map(len, said.values()))
    named = ", ".join(f"'{text}' ({_rows(rows)})" for text, rows in list(said.items())[:_MOST_NAMED])
    more = ", ..." if len(said) > _MOST_NAMED else ""
    others = "; and " + ", ".join(told) if (told := list(_others(sorted_rows, sure))) else ""
    were = "that was read as no goods" if count == 1 else "that were read as no goods"
    goods, words = _counted(len(sorted_rows.data), "row"), _counted(count, "row")
    what = f"Beside {goods} of goods the file has {words} of words {were}: {named}{more}{others}."
    return (Caution(what, "See that none of these words names goods."),)


def total_cautions(grid: Grid, sorted_rows: SortedRows) -> tuple[Caution, ...]:
    """One caution where rows are totals by their numbers alone: no words say that they are none of the goods.

    Examples
    --------
    >>> grid = Grid("", [["Item", "Qty"], ["Mug", 2], ["Jug", 1], ["Alles", 3]], 1)
    >>> total_cautions(grid, SortedRows((1, 2), (3,), (), (), by_numbers=(3,)))[0].what
    "1 row was read as a total, since its numbers are sums of the rows above it: 'Alles 3' (row 4)."
    """
    rows = sorted_rows.by_numbers
    if not rows:
        return ()
    told = [
        f"'{' '.join(row_text(grid.rows[index]).split())[:_LONGEST_TOLD]}' (row {index + grid.first_row})"
        for index in rows
    ]
    named = ", ".join(told[:_MOST_NAMED]) + (", ..." if len(rows) > _MOST_NAMED else "")
    were = "was read as a total, since its" if len(rows) == 1 else "were read as totals, since their"
    above = "above it" if len(rows) == 1 else "above them"
    what = f"{_counted(len(rows), 'row')} {were} numbers are sums of the rows {above}: {named}."
    return (Caution(what, "See that none of them is goods of the lot."),)


def above_cautions(grid: Grid, top: int, columns: int) -> tuple[Caution, ...]:
    """One caution where rows above the header look like goods: they may be a list of their own.

    Parameters
    ----------
    grid : Grid
        One sheet.
    top : int
        Position of the header's first row.
    columns : int
        How many columns the header names.

    Examples
    --------
    >>> rows = [["Stuff", "Nums", "Sum"], ["Hammer", 2, 9], ["Saw", 3, 8], ["Item", "Qty", "Retail"], ["Mug", 2, 5]]
    >>> above_cautions(Grid("", rows, 1), 3, 3)[0].what
    'Rows above the header that look like goods were not read: 2, from row 2 to row 3.'
    """
    alike = [
        index + grid.first_row
        for index, row in enumerate(grid.rows[:top])
        if len(row) - row.count("") >= max(_FULL, columns / 2) and any(quick_number(cell) is not None for cell in row)
    ]
    if len(alike) < _FEWEST_ABOVE:
        return ()
    where = f"{len(alike)}, from row {alike[0]} to row {alike[-1]}"
    what = f"Rows above the header that look like goods were not read: {where}."
    return (Caution(what, "If they are a list of their own, put it into a file of its own."),)


def _others(sorted_rows: SortedRows, notes: int) -> Iterator[str]:
    """What else there is, by its count; blank rows at the end are not counted."""
    filled = (*sorted_rows.data, *sorted_rows.totals, *sorted_rows.parts, *sorted_rows.notes, *sorted_rows.headers)
    between = sum(1 for index in sorted_rows.blank if index < max(filled, default=0))
    for count, name in (
        (len(sorted_rows.totals), "total"),
        (len(sorted_rows.parts), "heading of a pallet or lot"),
        (notes, "note"),
        (len(sorted_rows.headers), "repeated header"),
        (between, "blank row"),
    ):
        if count:
            yield _counted(count, name)


def _counted(count: int, name: str) -> str:
    if name.startswith("heading") and count > 1:
        return f"{count:,} headings of pallets or lots"
    return f"{count:,} {name}{'' if count == 1 else 's'}"


def _rows(rows: Sequence[int]) -> str:
    if len(rows) == 1:
        return f"row {rows[0]}"
    return f"rows {', '.join(map(str, rows[:3]))}{', ...' if len(rows) > 3 else ''}"
