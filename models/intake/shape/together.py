"""The tables of several sheets as one: pallet after pallet, each on a sheet of its own."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from models.intake.grid import Cell
from models.intake.shape.data_table import Table
from models.intake.shape.stated import totals_said
from models.values.problems import Caution


def as_one(tables: Mapping[str, Table], kind: str = "manifest") -> Table:
    """One table of all rows, sheet after sheet; the sheet's name is the pallet where no column or heading tells it.

    Parameters
    ----------
    tables : mapping
        {name of the sheet: its table}; at least one.
    kind : str
        Of file, in words.

    Notes
    -----
    Row numbers of a manifest stay those of each sheet, so they may come twice; those of a history go on from sheet to
    sheet, since a shop's sales are known by them.  A caution says so.  What a sheet says of its own sums
    is not kept, since it could not be told which rows it is about.
    """
    first, *others = tables.values()
    if not others:
        return first
    parts = [_with_pallet(name, table) for name, table in tables.items()]
    before = _rows_before(parts) if kind != "manifest" else [0] * len(parts)
    columns = {column: _cells(parts, column) for part in parts for column in part.columns}
    starts = np.cumsum([0, *map(len, parts)])
    notes = (
        replace(note, index=note.index + int(start))
        for start, part in zip(starts, parts, strict=False)
        for note in part.notes
    )
    repeats = (
        (row + int(start), one + int(start))
        for start, part in zip(starts, parts, strict=False)
        for row, one in part.repeats
    )
    lone = ((row + int(start), words) for start, part in zip(starts, parts, strict=False) for row, words in part.lone)
    return replace(
        first,
        rows=np.concatenate([part.rows + rows for part, rows in zip(parts, before, strict=True)]),
        columns=columns,
        headers={column: header for part in reversed(parts) for column, header in part.headers.items()},
        names=tuple(dict.fromkeys(name for part in parts for name in part.names)),
        cautions=(
            *dict.fromkeys(caution for part in parts for caution in part.cautions),
            _said(tables, before),
            *(_not_held(tables) if kind == "manifest" else ()),
        ),
        notes=tuple(notes),
        repeats=tuple(repeats),
        lone=tuple(lone),
        outline=None,
        formats=tuple(dict.fromkeys(shown for part in parts for shown in part.formats)),
        whole=_beside(parts, [part.whole for part in parts]),
        states=_beside(parts, [part.states for part in parts]),
        unfound=tuple(column for column in first.unfound if all(column in part.unfound for part in parts)),
    )


def _with_pallet(name: str, table: Table) -> Table:
    if "pallet" in table.columns:
        return table
    pallet: list[Cell] = [name] * len(table)
    return replace(table, columns=dict(table.columns) | {"pallet": pallet})


def _cells(parts: Sequence[Table], column: str) -> list[Cell]:
    return [cell for part in parts for cell in part.cells(column)]


def _beside(parts: Sequence[Table], held: Sequence[Mapping[str, list[Cell]]]) -> dict[str, list[Cell]]:
    """Columns beside the canonical ones, blank on the sheets that do not have them."""
    pairs = list(zip(parts, held, strict=True))
    headers = dict.fromkeys(header for own in held for header in own)
    return {header: [cell for part, own in pairs for cell in own.get(header, [""] * len(part))] for header in headers}


def _rows_before(parts: Sequence[Table]) -> list[int]:
    """What each sheet's row numbers are raised by."""
    last = [int(part.rows.max()) if len(part) else 0 for part in parts]
    return [0, *np.cumsum(last)[:-1].tolist()]


def _not_held(tables: Mapping[str, Table]) -> tuple[Caution, ...]:
    """Totals that sheets state are of rows that can no longer be told apart."""
    stating = [name for name, table in tables.items() if table.outline and totals_said(table.outline, False, 2, False)]
    if not stating:
        return ()
    listed = ", ".join(f"'{name}'" for name in stating)
    what = f"The sheets' own totals ({listed}) were not held against the lines, since the sheets were read as one."
    return (Caution(what, "Add up units and tags of one sheet yourself, or read one sheet at a time."),)


def _said(tables: Mapping[str, Table], before: Sequence[int]) -> Caution:
    on = [f", its row 1 is row {rows + 1:,}" if rows else "" for rows in before]
    listed = ", ".join(
        f"'{name}' ({len(table):,} row{'' if len(table) == 1 else 's'}{more})"
        for (name, table), more in zip(tables.items(), on, strict=True)
    )
    what, whole = ("rows", "history") if any(before) else ("lines", "lot")
    numbers = "go on from sheet to sheet" if any(before) else "count within each sheet"
    told = f"The {what} of {len(tables)} sheets were read as one {whole}: {listed}. Row numbers {numbers}."
    return Caution(told, f"Check that all of them are in this {whole}.")
