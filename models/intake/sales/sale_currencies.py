"""In which currency was it sold, and in which paid out?  Nothing is ever converted."""

import re
from collections import Counter

import numpy as np

from models.intake.cells.amounts import Amounts
from models.intake.cells.currencies import fits
from models.intake.cells.reading import ASIDE
from models.intake.grid import Cell, is_blank, plain_text, written_cell
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.problems import Caution

_CODE = re.compile(r"[A-Za-z]{3}")
_MOST_PAID_ABROAD = 0.5  # of the sales, above which the shop's account is abroad; common practice, no source


def set_other_currencies_aside(table: Table, currency: str, findings: Findings) -> tuple[Caution, ...]:
    """Rows sold, or paid out, in another currency than the one in force; nothing is ever converted.

    Parameters
    ----------
    table : Table
        The file.
    currency : str
        In force, ISO 4217.
    findings : Findings
        Sets the rows aside.

    Returns
    -------
    tuple of Caution
        One if any row is in another currency.
    """
    own, paid = (_codes(table, name) for name in ("currency", "paid_currency"))
    counted = Counter(code for code in own if code)
    if not counted and not any(paid):
        return ()
    if len(counted) == 1 and currency not in counted and not any(paid):
        what = f"Every row is in {next(iter(counted))}, but the currency in force is {currency}; none was converted."
        return (Caution(what, "Set the currency to the file's, or give the amounts in yours."),)
    strange = np.array([code not in ("", currency) for code in own], dtype=bool)
    abroad = _paid_abroad(own, paid, currency)
    unlike = np.array(
        [p not in ("", o or currency) and not (abroad and o == currency) for o, p in zip(own, paid, strict=True)],
        dtype=bool,
    )
    findings.name_where(
        strange & ~findings.aside, "currency", table.cells("currency"), "sold in another currency", ASIDE
    )
    findings.name_where(
        unlike & ~findings.aside,
        "paid_currency",
        table.cells("paid_currency"),
        "sold in one currency, paid in another",
        ASIDE,
    )
    aside = int((strange | unlike).sum())
    if not aside:
        return abroad
    what = f"Rows in another currency than {currency}: {aside}. They were set aside, since nothing is converted."
    return (*abroad, Caution(what, f"Give these amounts in {currency} if you want them to count."))


def _paid_abroad(own: list[str], paid: list[str], currency: str) -> tuple[Caution, ...]:
    """Most sales in the currency in force are paid out in another: the shop's account is abroad, prices are not."""
    at_home = [payout for code, payout in zip(own, paid, strict=True) if code == currency]
    elsewhere = [payout for payout in at_home if payout not in ("", currency)]
    if len(elsewhere) <= _MOST_PAID_ABROAD * len(at_home):
        return ()
    codes = ", ".join(sorted(set(elsewhere)))
    what = (
        f"Sold in {currency} and paid out in {codes}: {len(elsewhere):,} rows. Their prices were read as {currency}; "
        "nothing was converted."
    )
    return (Caution(what, f"See that fees, postage and refunds in the file are in {currency} too."),)


def set_other_signs_aside(table: Table, amounts: dict[str, Amounts], currency: str, findings: Findings) -> None:
    """Rows with an amount marked as another currency, in a file that also has amounts in the one in force.

    Parameters
    ----------
    table : Table
        The file.
    amounts : dict
        Its money columns.
    currency : str
        In force, ISO 4217.
    findings : Findings
        Sets the rows aside.
    """
    marks = {name: read.marks for name, read in amounts.items()}
    if not any(mark and fits(mark, currency) for column in marks.values() for mark in set(column)):
        return
    for name, column in marks.items():
        strange = {mark for mark in set(column) if mark and not fits(mark, currency)}
        mask = (
            np.array([mark in strange for mark in column], dtype=bool) if strange else np.zeros(len(table), dtype=bool)
        )
        reason = "sold in another currency" if name == "sold_price" else "sold in one currency, paid in another"
        cells = table.columns[name] if name in table.columns else next(iter(table.whole.values()))  # of summed fees
        findings.name_where(mask & ~findings.aside, name, cells, reason, ASIDE)


def _codes(table: Table, name: str) -> list[str]:
    cells = table.cells(name)
    known = {cell: _code(cell) for cell in set(cells)}
    return [known[cell] for cell in cells]


def _code(cell: Cell) -> str:
    text = plain_text(cell)
    return text.upper() if not is_blank(written_cell(cell)) and _CODE.fullmatch(text) else ""
