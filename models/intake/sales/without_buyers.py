"""The same file without its columns of buyers' names and addresses: what is kept of an upload that has them.

Its cells below the header become blank; it is kept only if it reads just as the file itself did.
"""

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import fields

import numpy as np

from models.intake.cells.wordings import plain_words
from models.intake.columns.vocabulary import HISTORY
from models.intake.files.readers import read_grids
from models.intake.grid import Cell, Grid, written_cell
from models.intake.history import read_history
from models.intake.limits import SAMPLE_ROWS
from models.intake.sales.buyers import about_buyers
from models.intake.shape.header import Header, find_header
from models.values.errors import Rejected
from models.values.sale_parts import SalePart

LARGEST_BYTES = 32 << 20  # beyond it the second reading takes too long: such a file is not kept at all


def without_buyers(data: bytes, filename: str, mapping: Mapping[str, str], currency: str) -> bytes | None:
    """Delimited text with the same rows, or None where the file cannot be kept without its buyers.

    Parameters
    ----------
    data, filename, mapping, currency
        As `read_history`; `mapping` is the one it told, which names no column of buyers.

    Examples
    --------
    >>> without_buyers(b"title,sold_price,buyer name\\nMug,8,Ann\\n", "s.csv", {}, "USD")
    b'title,sold_price,buyer name\\r\\nMug,8,\\r\\n'
    """
    if len(data) > LARGEST_BYTES:
        return None
    grids = [grid for grid in read_grids(data, filename) if not grid.hidden]
    if len(grids) != 1:
        return None
    clean = _written(_cleaned(grids[0], mapping), grids[0])
    try:
        same = _same(
            read_history(clean, filename, mapping, currency).part, read_history(data, filename, mapping, currency).part
        )
    except Rejected:
        return None
    return clean if same else None


def _cleaned(grid: Grid, mapping: Mapping[str, str]) -> list[list[Cell]]:
    header = find_header(grid, HISTORY, mapping)
    taken = {plain_words(name) for name in mapping.values()}
    above, below = grid.rows[: header.index + 1], grid.rows[header.index + 1 :]
    sample = below[:SAMPLE_ROWS]
    drop = {
        place
        for place in range(grid.width)
        if about_buyers(_name(header, place), [row[place] for row in sample if place < len(row)])
        and plain_words(_name(header, place)) not in taken
    }
    return above + [["" if place in drop else cell for place, cell in enumerate(row)] for row in below]


def _name(header: Header, place: int) -> Cell:
    return header.names[place] if place < len(header.names) else ""


def _written(rows: Sequence[Sequence[Cell]], grid: Grid) -> bytes:
    """Rows keep their numbers; the separator tells what it told of decimal commas."""
    text = io.StringIO()
    text.write("\r\n" * (grid.first_row - 1))
    writer = csv.writer(text, delimiter=";" if grid.decimal_comma_likely else ",")
    writer.writerows([written_cell(cell) for cell in row] for row in rows)
    return text.getvalue().encode()


def _same(one: SalePart, other: SalePart) -> bool:
    pairs = [(one.role, other.role), (one.piece, other.piece)]
    pairs += [(getattr(one.sales, field.name), getattr(other.sales, field.name)) for field in fields(one.sales)]
    return all(np.array_equal(a, b, equal_nan=a.dtype.kind in "fM") for a, b in pairs)
