"""Words alone above the sales below them: a month or a day is a heading and no goods, "Unsold" says what they are."""

import datetime as dt
from dataclasses import replace
from itertools import pairwise

import numpy as np

from models.intake.cells.dates import Order, read_dates
from models.intake.cells.period_words import names_period
from models.intake.cells.reading import ASIDE
from models.intake.cells.sourcing import says_unsold
from models.intake.grid import Cell, is_blank, plain_text, written_cell
from models.intake.sales.sale_words import any_words
from models.intake.sales.status_words import says_sold
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import BoolArray
from models.values.problems import Caution

_OF_GOODS = any_words("items?; listings?; goods; stock; artikel; waren?; articles?; artículos?; articoli; artikelen")
_ADDED = frozenset({"title", "pallet"})  # the sheet's name is on every row of it
_PERIOD, _STATE = "a stretch of time alone: a heading, no goods", "a state alone: a heading, no goods"


def with_headings(table: Table, findings: Findings) -> tuple[Table, tuple[Caution, ...]]:
    """The table with what a heading says of the rows below it; headings among the goods are set aside.

    Parameters
    ----------
    table : Table
        The file.
    findings : Findings
        Told of every heading.

    Returns
    -------
    tuple
        The table, with "unsold" where a day of sale would stand below such a heading, and what is to be said of it.
    """
    titles = table.cells("title")
    said = dict(table.lone)
    goods = np.ones(len(table), dtype=bool)
    for row in _alone(table):
        words, time = titles[row], _names_time(titles[row])
        if time or _state(words) is not None:
            findings.name(row, "title", words, _PERIOD if time else _STATE, ASIDE)
            said[row], goods[row] = plain_text(words), False
    return _unsold_below(table, said, goods)


def _unsold_below(table: Table, said: dict[int, str], goods: BoolArray) -> tuple[Table, tuple[Caution, ...]]:
    """Rows below "Unsold", down to the next stretch of time or state, unless they tell a day of sale."""
    marks = [row for row, words in sorted(said.items()) if _names_time(words) or _state(words) is not None]
    column = "sold_on" if "sold_on" in table.columns else "status"
    cells = list(table.cells(column)) if marks else []
    named: dict[str, int] = {}
    for start, end in pairwise([*marks, len(table)]):
        blank = [row for row in range(start, end) if goods[row] and is_blank(written_cell(cells[row]))]
        if _state(said[start]) is False and blank:
            named[said[start]] = named.get(said[start], 0) + len(blank)
            for row in blank:
                cells[row] = "unsold"
    if not named:
        return table, ()
    told = ", ".join(f"'{words}' ({rows:,} row{'s' if rows > 1 else ''})" for words, rows in named.items())
    what = f"Headings say that what stands below them has not sold: {told}."
    return replace(table, columns={**table.columns, column: cells}), (
        Caution(what, "If one of these sold, give it the day of its sale."),
    )


def _alone(table: Table) -> list[int]:
    """Rows with nothing but a title."""
    others = [cells for name, cells in table.columns.items() if name not in _ADDED]
    if not others or any("" not in cells for cells in others):  # most files: every row has a price
        return []
    first, *rest = others
    alone = [row for row, cell in enumerate(first) if cell == ""]
    return [row for row in alone if not any(cells[row] != "" for cells in rest)]


def _names_time(cell: Cell) -> bool:
    if isinstance(cell, dt.date) or names_period(cell):
        return True
    text = plain_text(cell)
    return not text.isdigit() and isinstance(cell, str) and read_dates([text], Order.DAY)[0].value is not None


def _state(cell: Cell) -> bool | None:
    """True for "Sold", False for "Unsold items", None for other words."""
    words = " ".join(_OF_GOODS.sub(" ", plain_text(cell)).split()).strip(" :.-")
    if says_unsold(words):
        return False
    return True if says_sold(words) and len(words.split()) == 1 else None
