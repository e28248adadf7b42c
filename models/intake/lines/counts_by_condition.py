"""Counts of units in a column for each condition: only one column can be the quantity, so the others are told."""

from collections.abc import Mapping, Sequence

from models.intake.cells.conditions import condition_of
from models.intake.grid import Cell, written_cell
from models.values.problems import Caution


def unread_counts(unread: Mapping[str, Sequence[Cell]], quantity: str) -> tuple[Caution, ...]:
    """A caution that names columns headed by a condition and filled with whole numbers that nobody read.

    Parameters
    ----------
    unread : mapping
        {header: first cells} of the columns that were not read.
    quantity : str
        Header of the column that was, "" where none was.

    Examples
    --------
    >>> unread_counts({"Open box": ["2", "5"], "Note": ["new", ""]}, "New")[0].what
    "Columns headed by a condition hold numbers: 'Open box'. Of units only what 'New' counts was read."
    >>> unread_counts({"Open box": ["yes", "no"]}, "Qty")
    ()
    """
    headers = [header for header, cells in unread.items() if condition_of(header) is not None and _are_counts(cells)]
    if not headers:
        return ()
    listed = ", ".join(f"'{header}'" for header in headers)
    read = f"only what '{quantity}' counts was read" if quantity else "none was counted there"
    return (
        Caution(
            f"Columns headed by a condition hold numbers: {listed}. Of units {read}.",
            "If each counts the units in that condition, give every condition a line of its own.",
        ),
    )


def _are_counts(cells: Sequence[Cell]) -> bool:
    filled = [written_cell(cell).strip() for cell in cells if cell != ""]
    return bool(filled) and all(cell.isdecimal() for cell in filled)
