"""What stands inside a sold price that is none of it: postage, sales tax, another currency?"""

import re
from collections import Counter

import numpy as np

from models.intake.cells.amounts import Amounts
from models.intake.cells.currencies import fits
from models.intake.cells.reading import AS_WRITTEN, ASIDE
from models.intake.cells.tax_words import tax_inside
from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.grid import Cell, is_blank, plain_text, written_cell
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import FloatArray, IntArray
from models.values.problems import Caution

_CODE = re.compile(r"[A-Za-z]{3}")
_INSIDE = frozenset(
    word_list("""
    incl; including; included; inclusive; with; plus; inkl; mit; avec; con; total; gross; brutto; paid
""")
)
_POSTAGE = frozenset({"shipping", "postage", "delivery", "p", "versand", "porto", "port", "envio", "spedizione"})
_TAX = frozenset({"tax", "taxes", "vat", "gst", "mwst", "ust", "tva", "ttc", "iva", "btw"})
_OUTSIDE = frozenset({"excl", "excluding", "without", "before", "net", "ohne", "exkl", "hors", "sin", "ex"})


def price_alone(
    table: Table, price: FloatArray, quantity: IntArray, amounts: dict[str, Amounts], findings: Findings
) -> tuple[FloatArray, tuple[Caution, ...]]:
    """Sold price of a unit without the postage and tax that its header says are inside.

    Parameters
    ----------
    table : Table
        The file.
    price : ndarray of shape (n_rows,)
        As read [minor units a unit].
    quantity : ndarray of shape (n_rows,)
        Units; 0 for rows that are set aside.
    amounts : dict
        Money columns [minor units a row]: postage charged and tax are taken out where the file has them.
    findings : Findings
        Told of prices that are less than what should stand inside.

    Returns
    -------
    tuple
        [minor units a unit], and a caution for what stands inside, whether it was taken out or is not told.
    """
    header = table.headers.get("sold_price", "")
    cautions: list[Caution] = []
    for name, what in _inside(header):
        if name not in amounts:
            said = (
                f"The prices in '{header}' have {what} inside, and no column tells how much: they are too high by it."
            )
            cautions.append(Caution(said, f"Give a price without {what}, or a column with the {what} of each sale."))
            continue
        inside = np.nan_to_num(amounts[name].minor) / np.maximum(quantity, 1)
        bad = inside >= price
        findings.name_where(bad, name, table.columns[name], f"more {what} than the whole price", AS_WRITTEN)
        price = np.where(bad, price, price - inside)
        said = f"Prices in '{header}' have {what} inside: what '{table.headers[name]}' tells of it was taken out."
        cautions.append(Caution(said, f"See that they do; your local rules say what of {what} is yours to keep."))
    return price, tuple(cautions)


def postage_inside(header: str) -> bool:
    """True for the header of a price that says that postage is in it.

    Examples
    --------
    >>> postage_inside("Total incl. shipping"), postage_inside("Sold price")
    (True, False)
    """
    return any(name == "shipping_charged" for name, _ in _inside(header))


def _inside(header: str) -> list[tuple[str, str]]:
    """Columns that tell what a price's header says is inside, and what that is."""
    words = set(plain_words(header).split())  # "incl. tax" is none of them any more
    said = words if words & _INSIDE and not words & _OUTSIDE else set()
    inside = [("shipping_charged", "postage")] if said & _POSTAGE else []
    return [*inside, ("tax", "sales tax")] if said & _TAX or tax_inside(header) else inside


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
    unlike = np.array([p not in ("", o or currency) for o, p in zip(own, paid, strict=True)], dtype=bool)
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
        return ()
    what = f"Rows in another currency than {currency}: {aside}. They were set aside, since nothing is converted."
    return (Caution(what, f"Give these amounts in {currency} if you want them to count."),)


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
        findings.name_where(mask & ~findings.aside, name, table.columns[name], reason, ASIDE)


def _codes(table: Table, name: str) -> list[str]:
    cells = table.cells(name)
    known = {cell: _code(cell) for cell in set(cells)}
    return [known[cell] for cell in cells]


def _code(cell: Cell) -> str:
    text = plain_text(cell)
    return text.upper() if not is_blank(written_cell(cell)) and _CODE.fullmatch(text) else ""
