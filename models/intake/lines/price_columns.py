"""Which of several price columns is the tag?  Decided where the cells leave no choice, asked where they do.

A cost or a marked-down price taken for the tag is silent: every unit of the lot is then valued by the wrong number.
"""

from collections.abc import Mapping, Sequence

import numpy as np

from models.intake.cells.amounts import read_amounts
from models.intake.cells.money_words import other_money
from models.intake.cells.price_words import PriceSort, price_sort, says_line
from models.intake.columns.money_like import says_nothing
from models.intake.fields.unread_money import money_unread, numbers_unread, same_amounts
from models.intake.grid import Cell, written_cell
from models.intake.limits import SAMPLE_ROWS
from models.intake.shape.table import Table
from models.values.arrays import FloatArray, IntArray
from models.values.questions import NO_COLUMN, Choice, Question

_SHOWN = 3
# Whose presence makes a column of this sort doubtful.
_RIVALS: Mapping[PriceSort, frozenset[PriceSort]] = {
    PriceSort.ORIGINAL: frozenset({PriceSort.ORIGINAL, PriceSort.TAG}),
    PriceSort.TAG: frozenset({PriceSort.ORIGINAL, PriceSort.TAG, PriceSort.REDUCED}),
    **dict.fromkeys(
        (PriceSort.REDUCED, PriceSort.ASKING, PriceSort.COST, PriceSort.ESTIMATE, PriceSort.VAGUE), frozenset(PriceSort)
    ),
}


def tag_question(table: Table, quantity: IntArray, given: Mapping[str, str], currency: str) -> Question | None:
    """What to ask where more than one column could be the tag.

    Parameters
    ----------
    table : Table
        The file; `unread` are the columns that were taken for nothing.
    quantity : ndarray of shape (n_rows,)
        Units; 0 for rows that are set aside.
    given : mapping
        The seller's mapping: where it names a tag column, nothing is asked.
    currency : str
        ISO 4217 code.

    Returns
    -------
    Question or None
        Its key is `tag_each`.
    """
    if {"tag_each", "tag_line"} & set(given):
        return None
    name = next((name for name in ("tag_each", "tag_line") if name in table.columns), None)
    if name is None:
        columns = {header: cells for header, cells in money_unread(table).items() if not _is_no_tag(header)}
        columns |= {header: cells for header, cells in numbers_unread(table).items() if says_nothing(header)}
        amounts = _amounts(columns, currency, table.comma_likely)
        return _question(columns, list(amounts)) if amounts else None
    columns = _priced(table)
    chosen = table.headers.get(name, name)
    columns = {chosen: table.columns[name][:SAMPLE_ROWS]} | columns
    amounts = _amounts(columns, currency, table.comma_likely)
    return _question(columns, list(amounts)) if _is_doubted(chosen, amounts, quantity) else None


def _is_doubted(chosen: str, amounts: Mapping[str, FloatArray], quantity: IntArray) -> bool:
    sort = price_sort(chosen) or PriceSort.VAGUE
    if sort is PriceSort.ESTIMATE:
        return True
    units = quantity[:SAMPLE_ROWS].astype(np.float64)
    rivals = [header for header in amounts if header != chosen and price_sort(header) in _RIVALS[sort]]
    return chosen in amounts and any(not _follows(amounts[chosen], amounts[rival], units) for rival in rivals)


def _is_no_tag(header: str) -> bool:
    return price_sort(header) is None and bool(other_money(header))


def _question(columns: Mapping[str, Sequence[Cell]], headers: Sequence[str]) -> Question:
    samples = {header: _samples(columns[header]) for header in headers}
    choices = tuple(Choice(header, f"'{header}', as in {', '.join(cells)}", cells) for header, cells in samples.items())
    none = Choice(NO_COLUMN, "none of them: the file has no tags")
    words = "Which column is the tag: what the shop asked for one unit, before any markdown?"
    tags = [header for header in headers if price_sort(header) in (PriceSort.TAG, PriceSort.ORIGINAL)]
    tags.sort(key=says_line)  # the tag of one unit first
    return Question("tag_each", words, (*choices, none), guess=tags[0] if tags else "")


def _priced(table: Table) -> dict[str, list[Cell]]:
    """Columns taken for nothing whose header speaks of a price of one unit."""
    return {header: cells for header, cells in table.unread.items() if price_sort(header) and not says_line(header)}


def _amounts(columns: Mapping[str, Sequence[Cell]], currency: str, comma_likely: bool) -> dict[str, FloatArray]:
    """Those that hold amounts of money in at least half of the cells that say anything."""
    read = read_amounts(columns, currency, comma_likely)
    filled = {header: sum(cell != "" for cell in cells) for header, cells in columns.items()}
    return {
        header: amounts.minor
        for header, amounts in read.items()
        if filled[header] and np.isfinite(amounts.minor).sum() >= 0.5 * filled[header]
    }


def _follows(chosen: FloatArray, rival: FloatArray, units: FloatArray) -> bool:
    """True if the rival repeats the chosen column, or is its amount of the whole line."""
    return same_amounts(chosen, rival) or (bool((units > 1).any()) and same_amounts(chosen * units, rival))


def _samples(cells: Sequence[Cell]) -> tuple[str, ...]:
    return tuple([written_cell(cell) for cell in cells if cell != ""][:_SHOWN])
