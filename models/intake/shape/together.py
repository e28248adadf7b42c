"""The tables of several sheets as one: pallet after pallet, each on a sheet of its own."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from models.intake.grid import Cell
from models.intake.shape.data_table import Table
from models.values.problems import Caution


def as_one(tables: Mapping[str, Table]) -> Table:
    """One table of all rows, sheet after sheet; the sheet's name is the pallet where no column or heading tells it.

    Parameters
    ----------
    tables : mapping
        {name of the sheet: its table}; at least one.

    Notes
    -----
    Row numbers stay those of each sheet, so they may come twice; a caution says so.  What a sheet says of its own sums
    is not kept, since it could not be told which rows it is about.
    """
    first, *others = tables.values()
    if not others:
        return first
    parts = [_with_pallet(name, table) for name, table in tables.items()]
    columns = {column: _cells(parts, column) for part in parts for column in part.columns}
    starts = np.cumsum([0, *map(len, parts)])
    notes = (
        replace(note, index=note.index + int(start))
        for start, part in zip(starts, parts, strict=False)
        for note in part.notes
    )
    return replace(
        first,
        rows=np.concatenate([part.rows for part in parts]),
        columns=columns,
        headers={column: header for part in reversed(parts) for column, header in part.headers.items()},
        names=tuple(dict.fromkeys(name for part in parts for name in part.names)),
        cautions=(*dict.fromkeys(caution for part in parts for caution in part.cautions), _said(tables)),
        notes=tuple(notes),
        outline=None,
        whole={
            header: [cell for part in parts for cell in _whole(part, header)] for part in parts for header in part.whole
        },
        unfound=tuple(column for column in first.unfound if all(column in part.unfound for part in parts)),
    )


def _with_pallet(name: str, table: Table) -> Table:
    if "pallet" in table.columns:
        return table
    pallet: list[Cell] = [name] * len(table)
    return replace(table, columns=dict(table.columns) | {"pallet": pallet})


def _cells(parts: Sequence[Table], column: str) -> list[Cell]:
    return [cell for part in parts for cell in part.cells(column)]


def _whole(part: Table, header: str) -> list[Cell]:
    return part.whole.get(header, [""] * len(part))


def _said(tables: Mapping[str, Table]) -> Caution:
    listed = ", ".join(
        f"'{name}' ({len(table):,} row{'' if len(table) == 1 else 's'})" for name, table in tables.items()
    )
    what = f"The lines of {len(tables)} sheets were read as one lot: {listed}. Row numbers count within each sheet."
    return Caution(what, "Check that all of them are in this lot.")
