"""Which sort of sold history is a file?  Sales, listings that have not sold, or a statement of fees and refunds.

Only sales have a price that was fetched.  A price beside listings that are still for sale is what is asked.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import Enum

from models.intake.cells.wordings import plain_words
from models.intake.columns.vocabulary import HISTORY
from models.intake.sales.buyers import about_buyers
from models.intake.sales.price_or_asked import as_asked, is_for_sale, require_price_of_sold, require_sold_price
from models.intake.sales.price_rivals import require_one_price
from models.intake.sales.statement_table import (
    LEDGER,
    gross_header,
    has_orders,
    is_statement,
    lacks_amounts,
    or_none,
    statement_words,
    with_days,
    with_kinds,
)
from models.intake.shape.table import Table, read_table
from models.values.errors import NeedsColumns
from models.values.questions import NO_COLUMN


class Sort(Enum):
    """What a file's rows are."""

    SALES = "sales"
    LISTINGS = "listings"
    STATEMENT = "statement"


@dataclass(frozen=True)
class HistoryTable:
    """A file of its sort; `buyers` counts its columns of buyers' names and addresses, none of which was read."""

    table: Table
    sort: Sort
    buyers: int


_LISTINGS = replace(HISTORY, required=("title", "asking_price"))
_ABOUT_LISTINGS = ("left", "ended_on", "listed_on", "listing_ref", "sold_count")


def history_table(data: bytes, filename: str, mapping: Mapping[str, str]) -> HistoryTable:
    """The table of a file of any sort.

    Parameters
    ----------
    data : bytes
        The whole file.
    filename : str
        Its name, for messages only.
    mapping : mapping
        {canonical: header in file}; a sold price that is named there is one.

    Raises
    ------
    Unreadable, TooLarge, NeedsColumns, Rejected
        As `read_table`.

    Examples
    --------
    >>> read = history_table(b"Title,Price,Available,Start date\\nMug,8,14,2026-05-01\\n", "live.csv", {})
    >>> read.sort.value, read.table.headers["asking_price"]
    ('listings', 'Price')
    """
    unsold = mapping.get("sold_price") == NO_COLUMN  # "these listings have not sold", or fees and refunds alone
    told = {key: value for key, value in mapping.items() if not (unsold and key == "sold_price")}
    try:
        table = _with_events(data, filename, told, read_table(data, filename, HISTORY, told))
    except NeedsColumns as asked:
        return _without_price(data, filename, told, asked, unsold)
    if plain_words(told.get("sold_price", "")) == plain_words(table.headers["sold_price"]):
        return HistoryTable(table, Sort.SALES, _buyers(table))
    if unsold or is_for_sale(table):
        if not unsold:
            require_price_of_sold(table)
        return HistoryTable(as_asked(table), Sort.LISTINGS, _buyers(table))
    require_one_price(table)
    require_sold_price(table)
    return HistoryTable(table, Sort.SALES, _buyers(table))


def _without_price(
    data: bytes, filename: str, mapping: Mapping[str, str], asked: NeedsColumns, none: bool
) -> HistoryTable:
    """Listings or a statement, where the file is plainly one; else the question stands.  `none`: it has no price."""
    if any(column not in ("title", "sold_price") for column in asked.missing):
        raise asked
    for vocabulary, sort, fits in (
        (_LISTINGS, Sort.LISTINGS, _is_listings),
        (statement_words("order_ref"), Sort.STATEMENT, is_statement),
        (statement_words("listing_ref"), Sort.STATEMENT, is_statement),
    ):
        try:
            table = read_table(data, filename, vocabulary, mapping)
        except NeedsColumns:
            continue
        table = with_days(with_kinds(table)) if sort is Sort.STATEMENT else table
        if sort is Sort.STATEMENT and has_orders(table) and not none:
            return _ledger(data, filename, mapping, table, asked)
        if fits(table):
            return HistoryTable(table, sort, _buyers(table))
    raise asked


def _ledger(data: bytes, filename: str, mapping: Mapping[str, str], table: Table, asked: NeedsColumns) -> HistoryTable:
    """Its gross amounts are what the orders brought; others may have fees taken off."""
    header = gross_header(table)
    if not header:
        raise or_none(asked)
    told = {**mapping, "sold_price": header}
    ledger = _with_events(data, filename, told, read_table(data, filename, HISTORY, told))
    return HistoryTable(ledger, Sort.SALES, _buyers(ledger))


def _with_events(data: bytes, filename: str, mapping: Mapping[str, str], table: Table) -> Table:
    """Of a file that tells of fees and refunds among its orders also the day and the amount of these."""
    if lacks_amounts(table):
        table = read_table(data, filename, LEDGER, {**mapping, "sold_price": table.headers["sold_price"]})
    return with_days(table)


def _is_listings(table: Table) -> bool:
    about = any(column in table.columns for column in _ABOUT_LISTINGS)
    return about and "order_ref" not in table.columns and "sold_on" not in table.columns


def _buyers(table: Table) -> int:
    return sum(about_buyers(name, cells) for name, cells in table.unread.items())
