"""From a file to its data columns: the sheet that holds the table, its header, which column is which, its data rows."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from models.intake.cells.fee_words import is_sale_fee
from models.intake.cells.reading import AS_WRITTEN, ASIDE
from models.intake.cells.size_runs import (
    DISAGREES,
    disagreeing,
    size_cautions,
    size_places,
    units_of_sizes,
    without_columns,
)
from models.intake.columns.column_names import column_names, places_together
from models.intake.columns.matching import check_mapping, match_columns
from models.intake.columns.vocabulary import Vocabulary
from models.intake.files.collector import no_collection
from models.intake.files.readers import read_grids
from models.intake.grid import Cell, Grid, row_text
from models.intake.limits import HEADER_SEARCH_ROWS, SAMPLE_ROWS
from models.intake.many import columns_of
from models.intake.shape.blocks import block_columns
from models.intake.shape.cards import refuse_cards
from models.intake.shape.data_table import Table
from models.intake.shape.equal_rows import equal_rows
from models.intake.shape.gone_sections import section_cautions
from models.intake.shape.header import column_named
from models.intake.shape.header_lines import in_joined_names
from models.intake.shape.left_out import above_cautions, doubted_notes, left_out_cautions, lone_words, total_cautions
from models.intake.shape.lot_shape import added_columns, load_cautions
from models.intake.shape.lots import lots_of, other_lots
from models.intake.shape.merged import fill_merged
from models.intake.shape.outline import Outline, outline_of
from models.intake.shape.removed import struck_out
from models.intake.shape.row_notes import RowNote, row_notes, shape_cautions
from models.intake.shape.rows import sort_rows
from models.intake.shape.sheet import Sheet
from models.intake.shape.sheets import choose_sheets
from models.intake.shape.together import as_one
from models.intake.shape.twice import twice_cautions
from models.intake.shape.uneven import rejoin_amounts, uneven_notes
from models.intake.shape.upright import upright_sheets
from models.intake.shape.yes_no import conditions_answered
from models.values.problems import Caution

__all__ = ["Table", "read_table"]


def read_table(data: bytes, filename: str, vocabulary: Vocabulary, mapping: Mapping[str, str]) -> Table:
    """The table a file holds.

    Parameters
    ----------
    data : bytes
        The whole file.
    filename : str
        Its name, for messages only.
    vocabulary : Vocabulary
        The kind of file.
    mapping : mapping
        {canonical: header in file}; wins over what is recognised.

    Raises
    ------
    Unreadable, TooLarge
        If there is no table to be read.
    NeedsColumns
        If a required column is not recognised, or several sheets hold lines.
    Rejected
        If the mapping has a key no file has.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> table = read_table(b"Load 7\\nItem;Qty\\nBlue mug;2\\n", "x.csv", MANIFEST, {})
    >>> table.rows.tolist(), table.columns["description"], table.headers["quantity"]
    ([3], ['Blue mug'], 'Qty')
    """
    check_mapping(mapping)
    with no_collection():
        return _table_of(read_grids(data, filename), filename, vocabulary, mapping)


def _table_of(grids: list[Grid], filename: str, vocabulary: Vocabulary, mapping: Mapping[str, str]) -> Table:
    if len(grids) == 1:
        refuse_cards(grids[0], filename, vocabulary)
    sheets = upright_sheets(grids, vocabulary, mapping)
    chosen, cautions = choose_sheets(sheets, vocabulary, mapping)
    others = [sheet for sheet in sheets if sheet not in chosen]
    elsewhere = tuple(words for sheet in others for words in _words_of(sheet))
    beside = tuple(
        (f"sheet '{one.grid.name}'", words)
        for one in others
        if not one.taken_out and one.names_goods(vocabulary) is None
        for words in _words_of(one)
    )
    sources = [_Source(sheet, vocabulary, mapping, filename, cautions, elsewhere, beside) for sheet in chosen]
    return as_one({source.sheet.grid.name: _table(source) for source in sources}, vocabulary.kind)


@dataclass(frozen=True)
class _Source:
    """What one table is read from."""

    sheet: Sheet
    vocabulary: Vocabulary
    mapping: Mapping[str, str]
    filename: str
    cautions: tuple[Caution, ...]
    elsewhere: tuple[str, ...]  # words on other sheets
    beside: tuple[tuple[str, str], ...]  # of those without lines, with what says them


def _table(source: _Source) -> Table:
    grid, header = source.sheet.grid, source.sheet.header
    joined = rejoin_amounts(grid, header.index + 1, header.names)
    below = grid.rows[header.index + 1 : header.index + 1 + SAMPLE_ROWS]
    names = [*header.names, *[""] * (max(map(len, below), default=0) - len(header.names))]
    samples = columns_of(below, range(len(names)))
    sizes = size_places(names, samples) if source.vocabulary.kind == "manifest" else ()
    header_rows = range(header.top, header.index + 1)
    mapping = in_joined_names(source.mapping, [grid.rows[index] for index in header_rows], names)
    called = column_names(names, [any(cell != "" for cell in cells) for cells in samples])
    summed = places_together(mapping.get("quantity", ""), called) if source.vocabulary.kind == "manifest" else []
    if summed:
        sizes, mapping = tuple(summed), {column: said for column, said in mapping.items() if column != "quantity"}
    match = match_columns(*without_columns(names, samples, sizes), source.vocabulary, mapping)
    told = [*grid.notes, *fill_merged(grid, header.index, match.places)]
    goods, reads_as = source.vocabulary.required[0], partial(column_named, vocabulary=source.vocabulary)
    sorted_rows = sort_rows(grid, header_rows, names, match.places, goods, reads_as)
    chosen = [grid.rows[index] for index in sorted_rows.data]
    rows = np.array(sorted_rows.data, dtype=np.int64) + grid.first_row
    notes = (*row_notes(told, grid.hidden_rows, rows, match.places), *doubted_notes(grid, sorted_rows))
    notes += tuple(uneven_notes(grid, chosen, header.names))
    taken = set(match.places.values())
    others = {place: name for place, name in enumerate(match.names) if name and place not in taken}
    fees = _fees(others, source.vocabulary)
    unread = {place: name for place, name in others.items() if place not in fees and place not in match.states}
    table = Table(
        rows,
        dict(zip(match.places, columns_of(chosen, list(match.places.values())), strict=True)),
        match.headers(),
        tuple(name for name in (called if summed else match.names) if name),
        grid.decimal_comma_likely,
        grid.mended,
        (
            *source.cautions,
            *joined,
            *shape_cautions(notes, grid, rows, sorted_rows.relaid),
            *left_out_cautions(grid, sorted_rows),
            *total_cautions(grid, sorted_rows),
            *section_cautions(grid, sorted_rows.sections),
            *above_cautions(grid, header.top, sum(1 for name in names if name != "")),
            *twice_cautions(match.names, match.places),
        ),
        dict(zip(unread.values(), columns_of(chosen[:SAMPLE_ROWS], list(unread)), strict=True)),
        notes,
        match.confidence,
        unfound=match.unfound,
        formats=tuple(
            (column, mark) for place, mark in grid.formats for column in match.places if match.places[column] == place
        ),
        whole=dict(zip([others[place] for place in fees], columns_of(chosen, fees), strict=True)),
        states=dict(zip([others[place] for place in match.states], columns_of(chosen, match.states), strict=True)),
    )
    if source.vocabulary.kind != "manifest":
        return replace(table, repeats=equal_rows(chosen), lone=lone_words(grid, sorted_rows))
    filled, blocks = block_columns(table.columns, table.headers)
    table = replace(table, columns={**table.columns, **filled}, cautions=(*table.cautions, *blocks))
    table = (
        _with_sum(table, source.mapping["quantity"], chosen, summed)
        if summed
        else _with_sizes(table, names, sizes, chosen)
    )
    condition = (
        {match.names[match.places["condition"]]: table.columns["condition"]} if "condition" in match.places else {}
    )
    struck, cautions = struck_out(others, chosen, rows.tolist(), condition, table.columns[goods])
    table = replace(table, notes=(*table.notes, *struck), cautions=(*table.cautions, *cautions))
    table = _with_answers(table, others, chosen)
    outline = outline_of(grid, range(header.top), sorted_rows, match.places)
    lots, cautions = lots_of(names, chosen, sorted_rows.data, outline.parts, source.mapping)
    return _with_lot(replace(table, cautions=(*table.cautions, *cautions)), outline, lots, source)


def _fees(others: Mapping[int, str], vocabulary: Vocabulary) -> list[int]:
    """Columns of a sold history that tell of more fees of a sale."""
    if "fees" not in vocabulary.wordings:
        return []
    return [place for place, name in others.items() if is_sale_fee(name)]


def _with_sum(table: Table, said: str, rows: Sequence[Sequence[Cell]], places: Sequence[int]) -> Table:
    """The table whose units several columns count together, as the seller said."""
    return replace(
        table,
        columns={**table.columns, "quantity": units_of_sizes(rows, places)},
        headers={**table.headers, "quantity": said},
        confidence={**table.confidence, "quantity": 1.0},
    )


def _with_sizes(table: Table, names: Sequence[Cell], sizes: Sequence[int], rows: Sequence[Sequence[Cell]]) -> Table:
    """The table with the units that columns of sizes count, unless it counts them itself."""
    if not sizes:
        return table
    units = units_of_sizes(rows, sizes)
    if "quantity" not in table.columns:
        cautions = (*table.cautions, *size_cautions(names, sizes, table.columns))
        return replace(table, columns=dict(table.columns) | {"quantity": units}, cautions=cautions)
    cells = table.columns["quantity"]
    odd = [RowNote(at, "quantity", cells[at], DISAGREES, AS_WRITTEN) for at in disagreeing(units, cells)]
    return replace(table, notes=(*table.notes, *odd))


def _with_answers(table: Table, names: Mapping[int, str], rows: Sequence[Sequence[Cell]]) -> Table:
    """The table with the condition that columns of yes and no tell, unless one tells it by itself."""
    answered, cautions = conditions_answered(names, rows, table.rows.tolist(), table.columns.get("condition", ()))
    columns = dict(table.columns) | ({"condition": answered} if answered else {})
    return replace(table, columns=columns, cautions=(*table.cautions, *cautions)) if cautions else table


def _with_lot(table: Table, outline: Outline, lots: Sequence[str], source: _Source) -> Table:
    """The table with what its manifest says outside of its columns."""
    asides = other_lots(lots, source.mapping, table.names)
    notes = [RowNote(index, "", lots[index], "belongs to another lot in the file", ASIDE) for index in asides]
    sheet = source.sheet.grid.name
    added, cautions = added_columns(table.columns, outline, lots, sheet, source.filename, source.beside)
    return replace(
        table,
        columns=dict(table.columns) | added,
        cautions=(*table.cautions, *cautions, *load_cautions(outline, source.elsewhere)),
        notes=(*table.notes, *notes),
        outline=None if asides else outline,  # sums of several lots say nothing of one
    )


def _words_of(sheet: Sheet) -> Iterator[str]:
    """The first rows of another sheet, a hidden one too: instructions and summaries stand there."""
    yield from map(row_text, sheet.grid.rows[:HEADER_SEARCH_ROWS])
