"""Do the tags of a row tell the count that its quantity cell lacks?  Tag of the line / tag of one unit, and said.

Where every quantity of a file is a formula whose result is not stored, and no tags tell it, the seller is asked.
"""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from models.intake.cells.amounts import read_amounts
from models.intake.cells.quantities import MOST_UNITS
from models.intake.files.sheet_marks import NO_RESULT
from models.intake.grid import is_blank, written_cell
from models.intake.lines.packs import counts_cases
from models.intake.lines.tag_columns import ROUNDING
from models.intake.many import distinct
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.questions import NO_COLUMN, Choice, Question

_TAGS = ("tag_each", "tag_line")


def with_counts_of_tags(table: Table, given: Mapping[str, str], currency: str, findings: Findings) -> Table:
    """The table with counts that two tags tell in the blank cells of its quantity column.

    Parameters
    ----------
    table : Table
        The file.
    given : mapping
        The seller's mapping.
    currency : str
        ISO 4217.
    findings : Findings
        Told of every row that is counted so; asks where nothing counts.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> from models.intake.shape.table import read_table
    >>> data = b"Item,Qty,Unit Retail,Ext. Retail\\nMug,2,3.10,6.20\\nJug,,4.50,13.50\\nPan,,4.50,14.00\\n"
    >>> table = read_table(data, "m.csv", MANIFEST, {})
    >>> with_counts_of_tags(table, {}, "USD", Findings(table.rows)).columns["quantity"]
    ['2', 3, '']
    """
    cells = table.columns.get("quantity", [])
    blanks = {cell for cell in distinct(cells) if is_blank(written_cell(cell))}
    if not blanks or counts_cases(table, given):  # tags may be of the pack or of what is in it
        return table
    blank = [at for at, cell in enumerate(cells) if cell in blanks]
    counts = _told(table, currency, blank)
    counted = list(cells)
    for at, count in counts.items():
        counted[at] = count
        findings.name(
            at,
            "quantity",
            cells[at],
            "no quantity, but the tags of the line and of one unit tell it",
            f"counted as {count}",
        )
    lost = any(note.column == "quantity" and note.reason == NO_RESULT for note in table.notes)
    if lost and not counts and len(blank) == len(cells):
        findings.ask(_question(table.headers["quantity"]))
    return replace(table, columns={**table.columns, "quantity": counted})


def _told(table: Table, currency: str, blank: list[int]) -> dict[int, int]:
    """{row: units} where the tag of the line is a whole number of tags of one unit, to the cent."""
    if not all(name in table.columns for name in _TAGS):
        return {}
    columns = {name: [table.columns[name][at] for at in blank] for name in _TAGS}
    read = read_amounts(columns, currency, table.comma_likely)
    each, line = read["tag_each"].minor, read["tag_line"].minor
    known = (each > 0) & (line > 0)
    counts = np.rint(np.divide(line, each, out=np.zeros(len(blank)), where=known))
    exact = (counts >= 1) & (counts <= MOST_UNITS) & (np.abs(line - counts * each) < ROUNDING)
    return {blank[at]: int(counts[at]) for at in np.flatnonzero(exact).tolist()}


def _question(header: str) -> Question:
    words = (
        f"The quantities in '{header}' are formulas whose results are not stored in the file. Open it in a spreadsheet "
        "program, save it there, and upload that; or say that every row is one unit."
    )
    return Question("quantity", words, (Choice(NO_COLUMN, "every row is one unit"),))
