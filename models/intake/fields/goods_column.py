"""What is each row of a manifest?  A row that does not say is set aside, with the reason."""

import numpy as np

from models.intake.cells.reading import ASIDE
from models.intake.fields.text_columns import text_column
from models.intake.files.sheet_marks import NO_RESULT
from models.intake.grid import is_lost_formula
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import TextArray

UNSTORED = "the description is a formula whose result is not stored in the file"
OPEN_AND_SAVE = "Open the file in a spreadsheet program, save it there, and upload that: then the results are stored."


def goods_column(table: Table, findings: Findings) -> TextArray:
    """The description of each row.

    Parameters
    ----------
    table : Table
        The file.
    findings : Findings
        Told of what the reader of the file found amiss, and of rows without a description.
    """
    findings.name_mended(table.mended)
    findings.name_notes(table.notes)
    description = text_column(table, "description", findings)
    cells = table.cells("description")
    blank = description == ""  # so reads a lost formula, too
    lost, unstored = np.zeros((2, len(table)), dtype=bool)
    unstored[[note.index for note in table.notes if note.column == "description" and note.reason == NO_RESULT]] = True
    for index in np.flatnonzero(blank).tolist():
        cell = cells[index]
        lost[index] = isinstance(cell, str) and is_lost_formula(cell)
    findings.name_where(lost, "description", cells, "a formula that has lost its value", ASIDE)
    findings.name_where(blank & unstored, "description", cells, UNSTORED, ASIDE)
    findings.name_where(blank & ~lost & ~unstored, "description", cells, "no description", ASIDE)
    return description
