"""Bytes -> grids of cells.  The file's content decides how it is read, not its name."""

import json
from dataclasses import replace

from models.intake.files.archives import passed_over, unpacked
from models.intake.files.delimited import delimited_grid
from models.intake.files.encodings import text_of
from models.intake.files.kinds import FileKind, kind_of
from models.intake.files.spreadsheets import workbook_grids
from models.intake.grid import Grid
from models.values.errors import Unreadable


def read_grids(data: bytes, name: str) -> list[Grid]:
    """Every table-like sheet of the file.

    Parameters
    ----------
    data : bytes
        The whole file; a gzip or zip archive of one such file is unpacked.
    name : str
        Its name, for messages only.

    Returns
    -------
    list of Grid
        At least one that can be seen, each with at least one cell that is not blank.

    Raises
    ------
    Unreadable
        If the file is empty, broken or no table.
    TooLarge
        If it is over a limit.

    Examples
    --------
    >>> read_grids(b"a|b\\r\\n1|2\\r\\n", "x.csv")[0].rows
    [['a', 'b'], ['1', '2']]
    """
    beside = passed_over(data)
    data, name = unpacked(data, name)
    grids = _grids(data, name)
    return [replace(grid, beside=beside) for grid in grids] if beside else grids


def _grids(data: bytes, name: str) -> list[Grid]:
    if kind_of(data, name) is FileKind.WORKBOOK:
        return workbook_grids(data, name)
    text = text_of(data, name)
    if _is_json(text):
        raise Unreadable(f"{name} is JSON, no table. Export it as CSV or as a workbook and upload that.")
    grid = delimited_grid(text, name)
    if not any(any(row) for row in grid.rows):
        raise Unreadable(f"{name} is empty.")
    return [grid]


def _is_json(text: str) -> bool:
    if text.lstrip()[:1] not in ("{", "["):
        return False
    try:
        json.loads(text)
    except (ValueError, RecursionError):
        return False
    return True
