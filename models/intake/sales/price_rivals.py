"""Which of two bare prices did things sell for?  One may be the tag; headers that do not say it are asked about.

A tag learned as a sold price is silent: every later bid would be too high.  Common practice, no source.
"""

from collections.abc import Mapping, Sequence
from itertools import combinations

import numpy as np

from models.intake.cells.money_words import other_money
from models.intake.cells.price_words import PriceSort, price_sort
from models.intake.columns.column_questions import examples
from models.intake.columns.glances import LOOKED_AT, glance
from models.intake.fields.unread_money import money_unread, same_amounts
from models.intake.grid import Cell
from models.intake.sales.price_or_asked import says_fetched, tells_sales
from models.intake.shape.table import Table
from models.values.arrays import FloatArray
from models.values.errors import NeedsColumns
from models.values.questions import NO_COLUMN, Choice, Question

_RIVALS = (PriceSort.VAGUE, PriceSort.REDUCED)
_BESIDE = ("shipping_charged", "shipping", "tax")  # what a total may hold beside the price
_HALF = 0.5
_CENTS = 100  # amounts are compared in hundredths, whatever the currency


def require_one_price(table: Table) -> None:
    """Ask where another bare price stands beside the one that was taken, and neither follows from the other.

    Parameters
    ----------
    table : Table
        A file with a column taken for the sold price that the seller did not name.

    Raises
    ------
    NeedsColumns
        With one question, whose key is `sold_price`.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import HISTORY
    >>> from models.intake.shape.table import read_table
    >>> data = b"Item,Price,Amount,Sold on\\nMug,20.00,8.00,2026-05-01\\nJug,15.00,9.00,2026-05-02\\n"
    >>> try:
    ...     require_one_price(read_table(data, "s.csv", HISTORY, {}))
    ... except NeedsColumns as asked:
    ...     [choice.value for choice in asked.questions[0].choices]
    ['Price', 'Amount']
    """
    header = table.headers["sold_price"]
    if says_fetched(header) or price_sort(header) is not PriceSort.VAGUE:
        return
    unread = {name: cells for name, cells in money_unread(table).items() if _may_be_price(name)}
    amounts = {name: _numbers(cells) for name, cells in unread.items()}
    rivals = {
        name: unread[name] for name, minor in amounts.items() if _mostly_above(minor) and not _follows(table, minor)
    }
    if rivals:
        question = _question({header: table.columns["sold_price"], **rivals}, table)
        raise NeedsColumns(question.words, ("sold_price",), table.names, (question,), _found(table))


def _may_be_price(header: str) -> bool:
    return price_sort(header) in _RIVALS and not other_money(header)


def _mostly_above(amounts: FloatArray) -> bool:
    """False for what is zero on most rows that say anything: a surcharge, no price of the goods."""
    known = amounts[np.isfinite(amounts)]
    return bool(len(known)) and bool((known > 0).mean() > _HALF)


def _follows(table: Table, rival: FloatArray) -> bool:
    """True where a column is the price, with or without postage and tax, or that times or by the row's units."""
    price, units = _numbers(table.columns["sold_price"]), _numbers(table.cells("quantity")) / _CENTS
    units = np.where(units > 0, units, 1.0)
    beside = [np.nan_to_num(_numbers(table.columns[name])) for name in _BESIDE if name in table.columns]
    added = [some for size in range(len(beside) + 1) for some in combinations(beside, size)]
    sums = [sum(some, whole) for whole in (price, price * units) for some in added]
    return same_amounts(rival * units, price) or any(same_amounts(rival, known) for known in sums)


def _numbers(cells: Sequence[Cell]) -> FloatArray:
    """The first cells as amounts at a glance [hundredths], NaN where there is none."""
    numbers = glance(cells[:LOOKED_AT]).numbers
    return np.array([np.nan if number is None else number * _CENTS for number in numbers], dtype=np.float64)


def _question(columns: Mapping[str, Sequence[Cell]], table: Table) -> Question:
    shown = {header: examples(header, cells[:LOOKED_AT]) for header, cells in columns.items()}
    choices = [Choice(header, f"{header}: {', '.join(cells)}", cells) for header, cells in shown.items()]
    if not tells_sales(table) and "listed_on" in table.columns:
        choices.append(Choice(NO_COLUMN, "none of them: these listings have not sold"))
    named = " and ".join(f"'{header}'" for header in columns)
    words = f"{named} hold different prices. Which one is what a thing sold for, without postage and sales tax?"
    return Question("sold_price", words, tuple(choices))


def _found(table: Table) -> dict[str, str]:
    return {column: header for column, header in table.headers.items() if column != "sold_price"}
