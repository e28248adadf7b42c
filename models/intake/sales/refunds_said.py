"""Which sales does a file call refunded without a word of how much?  Nobody can learn what such a refund cost."""

import re

import numpy as np

from models.intake.grid import Cell, plain_text
from models.intake.sales.sale_words import any_words
from models.intake.sales.state_columns import any_state, header_of, state_columns
from models.intake.sales.status_words import answers
from models.intake.shape.table import Table
from models.values.arrays import BoolArray, FloatArray
from models.values.problems import Caution

_REFUNDED = any_words("""
    refunded; returned; erstattet; zurückgegeben; remboursée?; retournée?; reembolsad[oa]; devuelt[oa]; rimborsat[oa];
    restituit[oa]; terugbetaald; geretourneerd
""")  # common practice, no source
_NOT = re.compile(r"\b(?:not|never|non|pas|nicht|no|niet)\b", re.IGNORECASE)
_CHECK = "Give a column with the amounts refunded, or the file that has them."


def refunds_untold(table: Table, refunded: FloatArray, sold: BoolArray) -> tuple[Caution, ...]:
    """One caution where sales are called refunded, or answer so with a yes, and no amount stands beside it.

    Parameters
    ----------
    table : Table
        The file.
    refunded : ndarray of shape (n_rows,)
        What went back [minor units a unit], NaN for blank.
    sold : ndarray of shape (n_rows,)
        True for sales.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import HISTORY
    >>> from models.intake.shape.table import read_table
    >>> table = read_table(b"Item,Sold for,Status\\nMug,8,Refunded\\nJug,9,Not refunded\\n", "s.csv", HISTORY, {})
    >>> refunds_untold(table, np.full(2, np.nan), np.ones(2, dtype=bool))[0].what.partition(".")[0]
    "Sales that the file calls refunded or returned, without an amount beside it: 1 ('Status')"
    """
    untold = sold & ~(refunded > 0)
    said: dict[str, BoolArray] = {}
    for name, cells in state_columns(table).items():
        header = header_of(table, name)
        rows = any_state(table, {name: cells}, _says_so if says_refunded(header) else says_refunded) & untold
        if rows.any():
            said[header] = rows
    if not said:
        return ()
    count, headers = int(np.logical_or.reduce([*said.values()]).sum()), ", ".join(f"'{header}'" for header in said)
    what = f"Sales that the file calls refunded or returned, without an amount beside it: {count:,} ({headers})."
    return (Caution(f"{what} Such a refund counts only where another row or file tells how much.", _CHECK),)


def says_refunded(cell: Cell) -> bool:
    """True for a state in which money went back.

    Examples
    --------
    >>> says_refunded("Partially refunded"), says_refunded("Not refunded"), says_refunded("Paid")
    (True, False, False)
    """
    text = plain_text(cell)
    return bool(_REFUNDED.search(text)) and not _NOT.search(text)


def _says_so(cell: Cell) -> bool:
    """Whatever is no "no" under "Refunded?"; an amount among answers is not read."""
    return answers(cell) is not False and not _NOT.search(plain_text(cell))
