"""What was wrong with a file's rows?  A bad row is data: it is named, never silently dropped."""

from dataclasses import dataclass


@dataclass(frozen=True)
class RowProblem:
    """One cell or row that was set aside, emptied, repaired by guess, or that contradicts another."""

    row: int  # 1-based row as a spreadsheet shows it
    column: str  # canonical column name, "" for the whole row
    value: str  # the cell as it was read
    reason: str  # why, in a seller's words
    done: str  # what was done about it


@dataclass(frozen=True)
class Problems:
    """rows = kept + set_aside; `items` also lists kept rows with a doubtful cell."""

    rows: int
    kept: int
    set_aside: int
    items: tuple[RowProblem, ...]


@dataclass(frozen=True)
class Caution:
    """Something to check before bidding; `line` is the line's number, None for the whole lot."""

    what: str
    check: str
    line: int | None = None
