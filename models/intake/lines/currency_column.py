"""Does a column say which currency each line is in?  Lines in another one are named; nothing is ever converted."""

from collections import Counter

import numpy as np

from models.intake.cells.reading import AS_WRITTEN
from models.intake.grid import written_cell
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.money import is_currency
from models.values.problems import Caution

CURRENCY = "currency"  # internal column


def other_currencies(table: Table, currency: str, findings: Findings) -> tuple[Caution, ...]:
    """A caution where lines say that they are in another currency than the one in force.

    Parameters
    ----------
    table : Table
        The file.
    currency : str
        In force, ISO 4217.
    findings : Findings
        Told of each such line where not all are.
    """
    cells = table.cells(CURRENCY)
    known = {cell: code for cell in set(cells) if is_currency(code := written_cell(cell).strip().upper())}
    counted = Counter(known[cell] for cell in cells if cell in known)
    if not set(counted) - {currency}:
        return ()
    said = f"The column '{table.headers[CURRENCY]}' says {', '.join(sorted(counted))}, but the currency in force is"
    if len(counted) > 1:
        strange = np.array([known.get(cell, currency) != currency for cell in cells], dtype=bool)
        findings.name_where(
            strange, CURRENCY, cells, "in another currency than the rest; no amount is converted", AS_WRITTEN
        )
    check = f"Give the file's amounts in {currency}, or set the currency to the file's."
    return (Caution(f"{said} {currency}; every amount was read as {currency} and none converted.", check),)
