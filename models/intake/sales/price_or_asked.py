"""Is a price what things sold for, or what is asked for them?  Told by the columns beside it, else by the seller."""

from collections.abc import Callable
from dataclasses import replace

from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.grid import Cell, is_blank, written_cell
from models.intake.sales.state_columns import said_sold, state_columns, told
from models.intake.sales.status_words import listing_state
from models.intake.shape.table import Table
from models.values.errors import NeedsColumns
from models.values.questions import NO_COLUMN, Choice, Question

_FETCHED = frozenset(
    word_list("""
    sold; sale; selling; sell; final; winning; verkauf; verkaufspreis; vk; vente; vendu; venta; vendita; verkoopprijs
""")
)
_MOST = 0.5  # of the rows that say something


def is_for_sale(table: Table) -> bool:
    """True where no row has a day or an order of a sale, and the file speaks of listings that run or have ended.

    Parameters
    ----------
    table : Table
        A file with a column taken for the sold price.
    """
    if tells_sales(table):
        return False
    if "left" in table.columns or "ended_on" in table.columns:
        return True
    states = state_columns(table)
    shares = [_share(cells, lambda cell: listing_state(cell) is not None) for cells in states.values()]
    return max(shares, default=0.0) >= _MOST


def require_sold_price(table: Table) -> None:
    """Ask where a bare price stands beside days of listing and nothing tells of a sale.

    Raises
    ------
    NeedsColumns
        With one question, whose key is `sold_price`.
    """
    if not tells_sales(table) and "listed_on" in table.columns and len(table):
        raise _asking(table, "No column tells when they sold, only when they were listed.")


def require_price_of_sold(table: Table) -> None:
    """Ask where listings say that some of them sold, by their state alone, and a bare price stands beside it.

    Raises
    ------
    NeedsColumns
        With one question, whose key is `sold_price`.
    """
    counts = {"left", "sold_count"} & set(table.columns)
    if not counts and said_sold(table, state_columns(table)).any():
        raise _asking(table, "Some rows say that they sold, and no column says what for.")


def _asking(table: Table, why: str) -> NeedsColumns:
    header = table.headers["sold_price"]
    words = f"Is '{header}' what these things sold for? {why}"
    choices = (
        Choice(header, f"yes, what sold went for its '{header}'"),
        Choice(NO_COLUMN, "no, it is what is asked"),
    )
    cells = tuple(written_cell(cell) for cell in table.columns["sold_price"][:3])
    question = Question("sold_price", words, choices, cells)
    return NeedsColumns(words, ("sold_price",), table.names, (question,), dict(table.headers))


def as_asked(table: Table) -> Table:
    """The table with that price as what is asked, unless another column says that."""
    columns: dict[str, list[Cell]] = dict(table.columns)
    headers = dict(table.headers)
    cells, header = columns.pop("sold_price"), headers.pop("sold_price")
    if "asking_price" not in columns:
        columns["asking_price"], headers["asking_price"] = cells, header
    return replace(table, columns=columns, headers=headers)


def says_fetched(header: str) -> bool:
    """True for the header of a price that says that it was paid.

    Examples
    --------
    >>> says_fetched("Sold price"), says_fetched("Price")
    (True, False)
    """
    return bool(_FETCHED.intersection(plain_words(header).split()))


def _share(cells: list[Cell], says: Callable[[Cell], bool]) -> float:
    """Of the cells that say anything."""
    return float(told(cells, says).sum()) / max(sum(not is_blank(written_cell(cell)) for cell in cells), 1)


def tells_sales(table: Table) -> bool:
    """True where something beside the price says that these things sold.

    Parameters
    ----------
    table : Table
        A file with a column taken for the sold price.
    """
    fetched = says_fetched(table.headers["sold_price"])
    return fetched or bool({"sold_on", "order_ref"} & set(table.columns))
