"""What do all columns of states say of each row?  Several are heard together, and the worst word counts."""

from collections.abc import Callable, Mapping

import numpy as np

from models.intake.cells.state_words import is_state
from models.intake.grid import Cell, is_blank, written_cell
from models.intake.sales.status_words import answers, says_sold
from models.intake.shape.table import Table
from models.values.arrays import BoolArray

STATUS, _KIND = "status", "kind"
States = Mapping[str, list[Cell]]


def state_columns(table: Table) -> dict[str, list[Cell]]:
    """{name for findings: cells} of every column of states; of a row's kind those words that are states.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import HISTORY
    >>> from models.intake.shape.table import read_table
    >>> data = b"Item,Sold for,Payment,Sent\\nMug,8,paid,delivered\\nJug,9,voided,unfulfilled\\n"
    >>> {name: cells[1] for name, cells in state_columns(read_table(data, "s.csv", HISTORY, {})).items()}
    {'status': 'voided', 'Sent': 'unfulfilled'}
    """
    columns = {STATUS: table.columns[STATUS]} if STATUS in table.columns else {}
    columns |= table.states
    kinds = table.columns.get(_KIND, [])
    states = {cell for cell in set(kinds) if is_state(written_cell(cell))}
    if states:
        columns[_KIND] = [cell if cell in states else "" for cell in kinds]
    return columns


def header_of(table: Table, name: str) -> str:
    """What the file calls a column of states."""
    return name if name in table.states else table.headers.get(name, "")


def told(cells: list[Cell], says: Callable[[Cell], bool]) -> BoolArray:
    """Which cells say something, "not_paid" as "not paid" does; blank ones say nothing.

    Examples
    --------
    >>> told(["not_sold", "", "Sold"], lambda cell: cell == "not sold").tolist()
    [True, False, False]
    """
    known = {cell: not is_blank(written_cell(cell)) and says(_spaced(cell)) for cell in set(cells)}
    if not any(known.values()):
        return np.zeros(len(cells), dtype=bool)
    return np.array([known[cell] for cell in cells], dtype=bool)


def any_state(table: Table, states: States, says: Callable[[Cell], bool]) -> BoolArray:
    """Rows of which any column of states says so."""
    made = np.zeros(len(table), dtype=bool)
    for cells in states.values():
        made |= told(cells, says)
    return made


def said_sold(table: Table, states: States) -> BoolArray:
    """Rows that say that they sold; "Sold?" is answered with a yes."""
    return any_state(table, states, says_sold) | any_state(
        table, _asked(table, states), lambda cell: bool(answers(cell))
    )


def denied(table: Table, states: States) -> BoolArray:
    """Rows that answer "Sold?" with a no."""
    return any_state(table, _asked(table, states), lambda cell: answers(cell) is False)


def _asked(table: Table, states: States) -> States:
    return {name: cells for name, cells in states.items() if says_sold(header_of(table, name))}


def _spaced(cell: Cell) -> Cell:
    return cell.replace("_", " ") if isinstance(cell, str) else cell
