"""Is a file without a sold price a statement of fees and refunds, and which of its columns says what each row is?"""

from collections import Counter
from dataclasses import replace

from models.intake.cells.wordings import plain_words
from models.intake.columns.matching import asking
from models.intake.columns.vocabulary import HISTORY, Vocabulary
from models.intake.columns.vocabulary_beside import BESIDE
from models.intake.grid import Cell, is_blank, written_cell
from models.intake.sales.sale_words import Kind, row_kind
from models.intake.shape.table import Table
from models.values.errors import NeedsColumns
from models.values.questions import NO_COLUMN, Choice

_GROSS = frozenset({"gross", "brutto", "brut", "bruto", "lordo"})
_NET = frozenset({"net", "netto", "neto"})
_AMOUNTS = ("fees", "refunded", "shipping_paid", "shipping", "amount", "sold_price")
_OF_SALES = (Kind.FEE, Kind.LABEL, Kind.REFUND)  # what rows beside sales say that they are
_MOST = 0.8  # of a column's rows that say what they are; common practice, no source
_NONE = "none of them: these are fees and refunds of sales that stand in your other files"


LEDGER = replace(
    HISTORY, kind="ledger", wordings={**HISTORY.wordings, "amount": BESIDE["amount"]}
)  # orders among fees and refunds


def statement_words(reference: str) -> Vocabulary:
    """What the headers of a statement say, whose rows name their sale by this column."""
    return replace(LEDGER, kind=f"statement by {reference}", required=(reference,), doubted=())


def with_kinds(table: Table) -> Table:
    """The table with the column whose cells say "selling fee" or "refund" as the kind of its rows."""
    if "kind" in table.columns:
        return table
    if "title" in table.columns and _says_kinds(table.columns["title"]):
        columns, headers = dict(table.columns), dict(table.headers)
        columns["kind"], headers["kind"] = columns.pop("title"), headers.pop("title")
        return replace(table, columns=columns, headers=headers)
    found = next((name for name, cells in table.unread.items() if _says_kinds(cells)), None)
    if found is None:
        return table
    unread = {name: cells for name, cells in table.unread.items() if name != found}
    columns, headers = {**table.columns, "kind": table.unread[found]}, {**table.headers, "kind": found}
    return replace(table, columns=columns, headers=headers, unread=unread)


def with_days(table: Table) -> Table:
    """The table with the only day of each row as the day of what its kind says: orders and fees are never listed."""
    if (
        {"kind", "listed_on"} - set(table.columns)
        or "sold_on" in table.columns
        or not _says_kinds(table.columns["kind"])
    ):
        return table
    columns, headers = dict(table.columns), dict(table.headers)
    columns["sold_on"], headers["sold_on"] = columns.pop("listed_on"), headers.pop("listed_on")
    return replace(table, columns=columns, headers=headers)


def lacks_amounts(table: Table) -> bool:
    """True where rows of fees or refunds among orders have no price: another column has their amounts."""
    if "kind" not in table.columns or not _says_kinds(table.columns["kind"]):
        return False
    events = {cell for cell in set(table.cells("kind")) if row_kind(cell) in _OF_SALES}
    pairs = zip(table.cells("kind"), table.cells("sold_price"), strict=True)
    return any(kind in events and is_blank(written_cell(price)) for kind, price in pairs)


def _says_kinds(cells: list[Cell]) -> bool:
    filled = Counter(cell for cell in cells if not is_blank(written_cell(cell)))
    kinds = {cell: row_kind(cell) for cell in filled}
    told = sum(times for cell, times in filled.items() if kinds[cell] is not None)
    return any(kind in _OF_SALES for kind in kinds.values()) and told >= _MOST * filled.total()


def is_statement(table: Table) -> bool:
    """Amounts that are fees by their header, or by what each row says."""
    columns = set(table.columns)
    return bool({"fees", "refunded"} & columns) or ("kind" in columns and bool(columns.intersection(_AMOUNTS)))


def has_orders(table: Table) -> bool:
    """A ledger: rows that call themselves orders and name the goods stand among refunds and fees."""
    if not {"kind", "title", "amount"} <= set(table.columns):
        return False
    pairs = zip(table.cells("kind"), table.cells("title"), strict=True)
    return any(row_kind(kind) is Kind.SALE and not is_blank(written_cell(title)) for kind, title in pairs)


def gross_header(table: Table) -> str:
    """The header of the amounts of a ledger if they are what orders brought, "" where fees may be taken off."""
    header = table.headers["amount"]
    return header if _GROSS.intersection(plain_words(header).split()) else ""


def or_none(asked: NeedsColumns) -> NeedsColumns:
    """The question for a ledger's sold price: it may have none, and what is left after fees is no guess."""
    questions = []
    for one in asked.questions:
        if one.key == "sold_price":
            net = bool(_NET.intersection(plain_words(one.guess).split()))
            one = replace(one, choices=(*one.choices, Choice(NO_COLUMN, _NONE)))
            one = replace(one, guess="", confidence=0.0) if net else one
        questions.append(one)
    return asking(questions, asked.headers, asked.found, HISTORY)
