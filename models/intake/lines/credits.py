"""Credits among the goods: an amount below zero that is called so, or that counts no units, is nothing to sell.

Common practice, no source: words of the trade for what is taken off a bill.  Goods with a tag below zero stay lines.
"""

import re
from collections.abc import Mapping

import numpy as np

from models.intake.cells.amounts import Amounts
from models.intake.cells.reading import ASIDE
from models.intake.cells.word_lists import word_list
from models.intake.grid import is_blank, plain_text, written_cell
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table

CREDIT = "an amount taken off the price, not goods"
_OWN = ("sku", "gtin")
_WORDS = "|".join(
    word_list(r"""
    credits?; discounts?; rebates?; refund(?:s|ed)?; returns?; adjustments?; adj; allowances?; coupons?; vouchers?;
    promo(?:tion)?s?; deductions?; shortages?; shorted; short[ -]?ship(?:ped|ment|ments)?; write[ -]?offs?;
    charge[ -]?backs?; shrink(?:age)?; damages?; correction; reversal; gutschrift(?:en)?; rabatte?; nachlass; abzug;
    erstattung; storno; skonto; remises?; avoirs?; remboursements?; rabais; descuentos?; abonos?; reembolsos?;
    sconti?; scont[oi]; rimbors[oi]; accredit[oi]; korting(?:en)?; terugbetaling; rabat; zwrot
""")
)
_CREDIT = re.compile(rf"(?<!\w)(?:{_WORDS})(?!\w)|^\W*less\b", re.IGNORECASE)
_MOST = 0.5  # of the rows; where more amounts are below zero, a blank quantity tells nothing


def set_credits_aside(table: Table, amounts: Mapping[str, Amounts], findings: Findings) -> None:
    """Set the rows aside that take an amount off, and name them.

    Parameters
    ----------
    table : Table
        The file.
    amounts : mapping
        Amounts [minor units] by canonical column.
    findings : Findings
        Told of each.
    """
    for name, read in amounts.items():
        below = read.minor < 0
        counts = "quantity" in table.columns and below.sum() <= _MOST * len(below)
        for index in np.flatnonzero(below & ~findings.aside).tolist():
            if any(not is_blank(written_cell(table.cells(column)[index])) for column in _OWN):
                continue
            uncounted = counts and is_blank(written_cell(table.columns["quantity"][index]))
            if uncounted or _CREDIT.search(plain_text(table.cells("description")[index])):
                findings.name(index, name, table.columns[name][index], CREDIT, ASIDE)
