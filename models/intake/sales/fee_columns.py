"""What are the fees of a sale where several columns tell of them?  Their sum, unless one of them is the sum already."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from models.intake.cells.amounts import Amounts, read_amounts
from models.intake.cells.price_words import says_line
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import FloatArray
from models.values.problems import Caution

_CLOSE = 1.0  # minor unit that a sum of rounded fees may be off
_MOST = 0.95  # of the rows


def fees_of_sale(
    table: Table, amounts: dict[str, Amounts], currency: str, findings: Findings
) -> tuple[dict[str, Amounts], tuple[Caution, ...]]:
    """Amounts with all fees of a row under `fees`, and what was summed.

    Parameters
    ----------
    table : Table
        The file; `whole` are the columns of fees beside the one that was recognised, if any was.
    amounts : dict
        Money columns that were read [minor units a row].
    currency : str
        ISO 4217.
    findings : Findings
        Told of cells that are no amount.
    """
    if not table.whole or "fees" in table.without:
        return amounts, ()
    read = read_amounts(table.whole, currency, table.comma_likely)
    for header, one in read.items():
        findings.name_doubts(header, table.whole[header], one.readings)
    columns = {header: _outflow(one.minor) for header, one in read.items()}
    if "fees" in amounts:
        columns = {table.headers["fees"]: _outflow(amounts["fees"].minor)} | columns
    columns = {header: minor for header, minor in columns.items() if np.isfinite(minor).any()}
    if not columns:
        return amounts, ()
    whole = _the_sum(columns)
    fees, what = (columns[whole], _one(whole, columns)) if whole else (_sum(list(columns.values())), _added(columns))
    like = amounts["fees"] if "fees" in amounts else next(iter(read.values()))
    check = "See that each is a fee of the sale itself, not of postage or of a subscription."
    return amounts | {"fees": replace(like, minor=fees)}, (Caution(what, check),)


def _outflow(minor: FloatArray) -> FloatArray:
    """A column that is mostly below zero is written from the purse's side."""
    return -minor + 0.0 if (minor < 0).sum() > (minor > 0).sum() else minor


def _sum(columns: list[FloatArray]) -> FloatArray:
    """Blank where every one is."""
    every = np.stack(columns)
    return np.where(np.isnan(every).all(axis=0), np.nan, np.nansum(every, axis=0))


def _the_sum(columns: Mapping[str, FloatArray]) -> str:
    """The column that holds what the others come to, or calls itself the total; "" where none does."""
    if len(columns) > 2:
        for header, minor in columns.items():
            others = _sum([other for name, other in columns.items() if name != header])
            both = np.isfinite(minor) & np.isfinite(others)
            if both.any() and (np.abs(minor - others)[both] <= _CLOSE).mean() >= _MOST:
                return header
    return next((header for header in columns if len(columns) > 1 and says_line(header)), "")


def _one(whole: str, columns: Mapping[str, FloatArray]) -> str:
    others = ", ".join(f"'{header}'" for header in columns if header != whole)
    return f"'{whole}' was read as all fees of a sale; {others} were taken to be parts of it."


def _added(columns: Mapping[str, FloatArray]) -> str:
    listed = " + ".join(f"'{header}'" for header in columns)
    return f"Fees of a sale were read as {listed}."
