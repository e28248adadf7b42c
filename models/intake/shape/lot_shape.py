"""What does a manifest say of its lines outside of its columns?  Pallets in headings, a condition in the title."""

from collections.abc import Mapping, Sequence

from models.intake.grid import Cell, is_blank, written_cell
from models.intake.shape.lot_words import coverage_cautions, lot_condition, part_condition
from models.intake.shape.outline import Outline
from models.intake.shape.parts import Part, filled_down
from models.values.problems import Caution


def added_columns(
    columns: Mapping[str, list[Cell]], outline: Outline, lots: Sequence[str], sheet: str, filename: str
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
    if not any(not is_blank(written_cell(cell)) for cell in columns.get("condition", ())):
        condition, cautions = _conditions(outline, pallets, sheet, filename)
        return added | condition, cautions
    return added, ()


def _conditions(
    outline: Outline, parts: Sequence[Part], sheet: str, filename: str
) -> tuple[dict[str, list[Cell]], tuple[Caution, ...]]:
    kept = outline.sorted_rows.data
    texts = [*outline.texts(outline.titles), sheet, *outline.texts(outline.sorted_rows.notes)]
    whole, cautions = lot_condition(texts, filename)
    of_part = {part.name: part_condition(part.heading) for part in parts}
    if any(of_part.values()):
        cells: list[Cell] = [of_part.get(str(name), "") or whole for name in filled_down(parts, kept)]
        what = "No column tells the condition: it was taken from the headings of the pallets."
        return {"condition": cells}, (
            *cautions,
            Caution(what, "Check that each heading is meant for all goods below it."),
        )
    return ({"condition": [whole] * len(kept)} if whole else {}), cautions


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
