"""Sold history file -> sales.  What sold, what was listed and has not; whatever is neither is set aside and named."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from models.intake.asking import asking_all
from models.intake.sales.buyers import buyers_caution
from models.intake.sales.export_limits import limit_cautions
from models.intake.sales.history_cautions import counted_cautions, joined_cautions, live_cautions
from models.intake.sales.history_columns import read_columns
from models.intake.sales.history_part import history_part
from models.intake.sales.history_table import HistoryTable, Sort, history_table
from models.intake.sales.joined import join_history
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.money import minor_digits
from models.values.problems import Caution, Problems
from models.values.questions import NO_COLUMN, is_answer, plain_answers
from models.values.sale_parts import SalePart
from models.values.sales import Sales


@dataclass(frozen=True)
class ReadHistory:
    """A sold history as columns; `mapping` says which header was taken for which canonical column, of all `headers`.

    `part` is what the file says before it is joined with others, `sales` what it comes to alone; `file_cautions` are
    those of the file itself, `cautions` also those of joining its rows with one another.
    """

    sales: Sales
    problems: Problems
    cautions: tuple[Caution, ...]
    mapping: dict[str, str]
    headers: tuple[str, ...]
    part: SalePart
    file_cautions: tuple[Caution, ...]
    confidence: Mapping[str, float] = field(default_factory=dict)  # {canonical: how sure its header is, 0 to 1}
    buyers: int = 0  # columns of buyers' names and addresses, which were not read
    unfound: tuple[str, ...] = ()  # columns named by a header the file does not have


def read_history(data: bytes, filename: str, mapping: Mapping[str, str], currency: str) -> ReadHistory:
    """Read a sold history.

    Parameters
    ----------
    data : bytes
        The whole file: CSV (comma, semicolon, tab, pipe), XLSX, XLS or ODS, told by its content.
    filename : str
        Its name, for messages only.
    mapping : mapping
        {canonical: header in file}; headers the file does not have are passed over.  `sold_price_is` "row" says that
        sold prices stand for whole rows, "order" for whole orders; else they are per unit.
    currency : str
        ISO 4217 code the amounts are in; nothing is converted.

    Returns
    -------
    ReadHistory
        Money [minor units] and minutes a unit.  A header without rows is a history without sales.  A file of listings,
        fees or refunds is one too; its part joins the sales of other files.

    Raises
    ------
    Unreadable
        If the file is empty, broken or no table.
    NeedsColumns
        If no column is recognised as the title or the sold price.
    TooLarge
        If it is over a limit of rows, columns or size.
    Rejected
        If the currency or a key of the mapping cannot be used.

    Examples
    --------
    >>> data = b"Item,Sold for,Qty,Fees,Date sold\\nBlue mug,8.00,2,1.20,2026-05-01\\nJug,,1,,\\nPot,0,1,,2026-05-02\\n"
    >>> read = read_history(data, "s.csv", {}, "USD")
    >>> read.sales.sold_price.tolist(), read.sales.fees.tolist(), read.problems.items[0].reason
    ([800.0, nan], [60.0, nan], 'the sold price is zero')
    """
    minor_digits(currency)
    answers = plain_answers(mapping)
    return asking_all(lambda told: _read(history_table(data, filename, told), told, currency), answers)


def _read(read: HistoryTable, mapping: Mapping[str, str], currency: str) -> ReadHistory:
    findings = Findings(read.table.rows, read.table.headers)
    columns = read_columns(read, mapping, currency, findings)
    part = history_part(columns, findings)
    findings.require_answers(read.table.names, read.table.headers)
    limits = limit_cautions(len(read.table), part.sales)
    counted: tuple[Caution, ...] = ()
    if read.sort is Sort.LISTINGS:
        counted = (*counted_cautions(columns.counts.sold[~findings.aside], part), *live_cautions(part))
    own = (*read.table.cautions, *buyers_caution(read.buyers), *columns.cautions, *limits, *counted)
    done = alone(part, findings.problems(), own, _used(read.table, mapping), read.table.names)
    return replace(done, confidence=read.table.confidence, buyers=read.buyers, unfound=read.table.unfound)


def alone(
    part: SalePart, problems: Problems, own: tuple[Caution, ...], mapping: dict[str, str], headers: tuple[str, ...]
) -> ReadHistory:
    """A file that is joined with no other."""
    joined = join_history([part])
    return ReadHistory(joined.sales, problems, (*own, *joined_cautions(joined)), mapping, headers, part, own)


def _used(table: Table, mapping: Mapping[str, str]) -> dict[str, str]:
    """Given back to `read_history`, it reads the same file the same way."""
    none = {"sold_price": NO_COLUMN} if mapping.get("sold_price") == NO_COLUMN else {}
    return dict(table.headers) | none | {key: mapping[key] for key in mapping if is_answer(key)}
