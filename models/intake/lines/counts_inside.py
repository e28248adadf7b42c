"""Does a description end in the count that its quantity cell lacks?  "Asst knit tops 24M-5T | 96", said and not silent.

Common practice, no source.
"""

import re
from dataclasses import replace

from models.intake.grid import is_blank, plain_text, written_cell
from models.intake.many import distinct
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table

_WORDS = r"(?:ea|each|pcs?|pieces|units?|stk|st(?:ü|ue)ck|pz|uds?)"
_COUNTED = re.compile(
    rf"(?:\|\s*(?:qty\.?\s*[:=]?\s*)?|[\s,;(–-](?:qty|quantity|menge|anzahl|qté|cant)\b\.?\s*[:=]?\s*)"
    rf"(?P<count>[1-9]\d{{0,5}})\s*{_WORDS}?\.?\)?$",
    re.IGNORECASE,
)
_MOST = 0.5  # of the rows, where the file has no column of quantities at all


def with_counts_inside(table: Table, findings: Findings) -> Table:
    """The table with counts that stand at the end of descriptions in its quantity column, and those words alone left.

    Parameters
    ----------
    table : Table
        The file.
    findings : Findings
        Told of every row that is counted so.
    """
    quantity, cells = table.cells("quantity"), table.cells("description")
    blank = {cell for cell in distinct(quantity) if is_blank(written_cell(cell))}
    if not blank:
        return table
    found = {
        at: (text, tail)
        for at, cell in enumerate(quantity)
        if cell in blank and (tail := _COUNTED.search(text := plain_text(cells[at]))) and tail.start()
    }
    if not found or ("quantity" not in table.columns and len(found) <= _MOST * len(table)):
        return table
    counted, goods = list(quantity), list(cells)
    for at, (text, tail) in found.items():
        counted[at], goods[at] = tail["count"], text[: tail.start()].rstrip(" ,;(–-")
        reason = f"no quantity, but the description ends in '{tail[0].strip()}'"
        findings.name(at, "quantity", quantity[at], reason, f"counted as {tail['count']}")
    return replace(table, columns={**table.columns, "quantity": counted, "description": goods})
