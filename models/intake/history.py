"""Sold history file -> sales.  What sold, what was listed and has not; whatever is neither is set aside and named."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from models.intake.amounts import file_writes_comma
from models.intake.findings import Findings
from models.intake.money_columns import money_columns
from models.intake.number_columns import minutes_column, quantity_column
from models.intake.reading import ASIDE
from models.intake.sale_days import sale_days
from models.intake.sale_money import MONEY_COLUMNS, unit_amounts
from models.intake.sale_state import set_cancelled_aside, set_unpriced_aside, without_unsold_words
from models.intake.table import Table, read_table
from models.intake.text_columns import condition_column, gtin_column, sourced_column, text_column
from models.intake.vocabulary import HISTORY, PRICE_IS
from models.values.money import minor_digits
from models.values.problems import Caution, Problems
from models.values.sales import Sales

_WORDS = ("title", "brand", "category", "sku", "lot", "source", "place", "listing_ref", "order_ref")


@dataclass(frozen=True)
class ReadHistory:
    """A sold history as columns; `mapping` says which header was taken for which canonical column, of all `headers`."""

    sales: Sales
    problems: Problems
    cautions: tuple[Caution, ...]
    mapping: dict[str, str]
    headers: tuple[str, ...] = ()


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
        sold prices stand for whole rows; else they are per unit.
    currency : str
        ISO 4217 code the amounts are in; nothing is converted.

    Returns
    -------
    ReadHistory
        Money [minor units] and minutes a unit.  A header without rows is a history without sales.

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
    table = without_unsold_words(read_table(data, filename, HISTORY, mapping))
    findings = Findings(table.rows)
    findings.name_mended(table.mended)
    set_cancelled_aside(table, findings)
    words = {name: text_column(table, name, findings) for name in _WORDS}
    findings.name_where(words["title"] == "", "title", table.cells("title"), "no title", ASIDE)
    comma = file_writes_comma(table.having(MONEY_COLUMNS), table.comma_likely)
    quantity = quantity_column(table, comma, findings)
    amounts, currency_cautions = money_columns(table, MONEY_COLUMNS, currency, findings)
    money = unit_amounts(amounts, table, quantity, mapping.get(PRICE_IS) == "row", findings)
    set_unpriced_aside(table, money["sold_price"], findings)
    days, day_cautions = sale_days(table, currency, findings)
    minutes = minutes_column(table, comma, findings) / np.maximum(quantity, 1)
    sales = _sales(table, findings, words | money | days | {"quantity": quantity, "listing_minutes": minutes})
    cautions = (*table.cautions, *currency_cautions, *day_cautions)
    return ReadHistory(sales, findings.problems(), cautions, _used(table, mapping), table.names)


def _used(table: Table, mapping: Mapping[str, str]) -> dict[str, str]:
    """Given back to `read_history`, it reads the same file the same way."""
    return dict(table.headers) | {key: mapping[key] for key in HISTORY.extra_keys if key in mapping}


def _sales(table: Table, findings: Findings, read: dict[str, Any]) -> Sales:
    """The kept rows; the columns read before, and the others read here."""
    columns = read | {
        "row": table.rows,
        "condition": condition_column(table, findings),
        "sourced": sourced_column(table, findings),
        "gtin": gtin_column(table, findings),
    }
    kept = np.flatnonzero(~findings.aside)
    return Sales(**{name: column[kept] for name, column in columns.items()})
