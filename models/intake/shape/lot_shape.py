"""What does a manifest say of its lines outside of its columns?  Pallets in headings, a condition in the title."""

from collections.abc import Mapping, Sequence

from models.intake.grid import Cell, is_blank, written_cell
from models.intake.shape.headings import below_headings, headings_of
from models.intake.shape.lot_words import coverage_cautions, lot_condition
from models.intake.shape.outline import Outline
from models.intake.shape.parts import filled_down
from models.values.problems import Caution


def added_columns(
    columns: Mapping[str, list[Cell]],
    outline: Outline,
    lots: Sequence[str],
    sheet: str,
    filename: str,
    beside: Sequence[tuple[str, str]] = (),
) -> tuple[dict[str, list[Cell]], tuple[Caution, ...]]:
    """Columns that the file has only in words, and what is to be said of them.

    Parameters
    ----------
    columns : mapping
        {canonical: one cell a data row}.
    outline : Outline
        The table without its lines.
    lots : sequence of str
        Lot of each data row, "" where the file holds one.
    sheet, filename : str
        Their names.
    beside : sequence of (str, str)
        Other sheets that hold no lines, and words on them.

    Returns
    -------
    tuple
        {canonical: one cell a data row} to be added, and cautions.
    """
    added: dict[str, list[Cell]] = {}
    kept = outline.sorted_rows.data
    pallets = [part for part in outline.parts if not part.is_lot]
    if "pallet" not in columns and (pallets or any(lots)):
        added["pallet"] = filled_down(pallets, kept) if pallets else list(lots)
    told = columns.get("condition", ())
    blank = [is_blank(written_cell(cell)) for cell in told]
    condition, cautions = _conditions(outline, sheet, filename, beside) if all(blank) else _filled(outline, told, blank)
    return added | condition, cautions


def _filled(
    outline: Outline, told: Sequence[Cell], blank: Sequence[bool]
) -> tuple[dict[str, list[Cell]], tuple[Caution, ...]]:
    """Lines whose cell is blank among others that say it: the heading above them may."""
    above = below_headings(headings_of(outline), outline.sorted_rows.data, "") if any(blank) else []
    cells = [mine if not empty else head for mine, empty, head in zip(told, blank, above, strict=True)] if above else []
    count = sum(1 for empty, head in zip(blank, above, strict=False) if empty and head != "")
    if not count:
        return {}, ()
    lines = "1 line has" if count == 1 else f"{count:,} lines have"
    what = f"{lines} no condition in the column of conditions: it was taken from the heading above."
    return {"condition": cells}, (Caution(what, "Check that the heading is meant for all goods below it."),)


def _conditions(
    outline: Outline, sheet: str, filename: str, beside: Sequence[tuple[str, str]]
) -> tuple[dict[str, list[Cell]], tuple[Caution, ...]]:
    kept = outline.sorted_rows.data
    headings = headings_of(outline)
    heads = {heading.index for heading in headings}
    notes = [index for index in outline.sorted_rows.notes if index not in heads]
    said = [("title", text) for text in outline.texts([index for index in outline.titles if index not in heads])]
    said += [("sheet's name", sheet), *(("note", text) for text in outline.texts(notes))]
    whole, cautions = lot_condition(said, filename, beside, sheet)
    cells = below_headings(headings, kept, whole)
    if any(heading.condition for heading in headings):
        none = " Lines below headings that name none have none." if not whole and "" in cells else ""
        what = f"No column tells the condition: it was taken from the headings above the goods.{none}"
        cautions += (Caution(what, "Check that each heading is meant for all goods below it."),)
    return ({"condition": cells} if any(cells) else {}), cautions


def load_cautions(outline: Outline, others: Sequence[str]) -> tuple[Caution, ...]:
    """Whether the words around the lines say that the list is not the whole load; `others` stand on other sheets.

    Examples
    --------
    >>> from models.intake.grid import Grid
    >>> from models.intake.shape.outline import outline_of
    >>> from models.intake.shape.rows import SortedRows
    >>> grid = Grid("", [["List covers about 80% of the load"], ["Item"], ["Mug"]], 1)
    >>> len(load_cautions(outline_of(grid, range(1), SortedRows((2,), (), (), ()), {}), []))
    1
    """
    rows = outline.sorted_rows
    return coverage_cautions([*outline.texts(outline.titles, rows.parts, rows.notes, rows.totals), *others])
