"""Which columns of days did nobody read?  None vanishes unsaid: each is named with a few of its cells."""

from models.intake.columns.column_questions import examples
from models.intake.columns.glances import glance
from models.intake.shape.table import Table
from models.values.problems import Caution

_MOST = 0.5  # of the cells that say anything
_MOST_NAMED = 6


def unread_days_cautions(table: Table, check: str) -> tuple[Caution, ...]:
    """One caution that names every column of days that was taken for nothing; none where there is none.

    Parameters
    ----------
    table : Table
        The file.
    check : str
        What the seller can do about it.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import HISTORY
    >>> from models.intake.shape.table import read_table
    >>> table = read_table(b"Title,Sold price,Sold on,Zork\\nHat,21,2025-02-18,2025-01-02\\n", "", HISTORY, {})
    >>> unread_days_cautions(table, "")[0].what
    "Columns of days that were not read: 'Zork' (2025-01-02)."
    """
    seen = {header: glance(cells) for header, cells in table.unread.items()}
    named = [
        f"'{header}' ({', '.join(examples(header, table.unread[header]))})"
        for header, look in seen.items()
        if look.filled and look.date > _MOST
    ]
    if not named:
        return ()
    more = f" and {len(named) - _MOST_NAMED} more" if len(named) > _MOST_NAMED else ""
    return (Caution(f"Columns of days that were not read: {', '.join(named[:_MOST_NAMED])}{more}.", check),)
