"""Was the condition taken from a column that no header calls so, or from none though one may hold it?  That is told."""

from collections.abc import Mapping

from models.intake.cells.wordings import plain_words
from models.intake.columns.column_questions import examples
from models.intake.columns.glances import glance
from models.intake.columns.header_words import header_scores
from models.intake.columns.vocabulary import MANIFEST
from models.intake.limits import SAMPLE_ROWS
from models.intake.shape.table import Table
from models.values.problems import Caution

_CONDITION = "condition"
_MOST_NAMED = 3
_SOME = 0.2  # of the cells that say anything


def condition_cautions(table: Table, given: Mapping[str, str]) -> tuple[Caution, ...]:
    """One caution that names the column, unless its header or the seller does.

    Parameters
    ----------
    table : Table
        The file.
    given : mapping
        The seller's mapping.

    Examples
    --------
    >>> from models.intake.shape.table import read_table
    >>> table = read_table(b"Item,Qty,Zork\\nMug,2,New\\nJug,1,Open box\\n", "m.csv", MANIFEST, {})
    >>> condition_cautions(table, {})[0].what
    "No header names the condition: it was taken from the words under 'Zork' (New, Open box)."
    """
    if _CONDITION in given:
        return ()
    if _CONDITION not in table.headers:
        return _unread(table)
    header = table.headers[_CONDITION]
    if _is_named(header):
        return ()
    shown = ", ".join(examples(header, table.columns[_CONDITION][:SAMPLE_ROWS]))
    what = f"No header names the condition: it was taken from the words under '{header}' ({shown})."
    return (Caution(what, "If they say something else, say which column holds the condition, or that none does."),)


def _is_named(header: str) -> bool:
    return _CONDITION in header_scores(plain_words(header), MANIFEST)


def _unread(table: Table) -> tuple[Caution, ...]:
    """Columns with words of condition among others, where none was taken."""
    shares = {header: glance(cells).condition for header, cells in table.unread.items()}
    named = [
        f"'{header}' ({', '.join(shown)})"
        for header, share in shares.items()
        if (share > _SOME or (share and _is_named(header))) and (shown := examples(header, table.unread[header]))
    ]
    if not named:
        return ()
    what = f"No column was taken for the condition, though some cells speak of it: {', '.join(named[:_MOST_NAMED])}."
    return (Caution(what, "If one of them is the condition, say which."),)
