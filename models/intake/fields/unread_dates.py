"""Which columns of days did nobody read?  None vanishes unsaid: each is named with a few of its cells."""

from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.columns.column_questions import examples
from models.intake.columns.glances import glance
from models.intake.shape.table import Table
from models.values.problems import Caution

_MOST = 0.5  # of the cells that say anything
_MOST_NAMED = 6


_DAY_WORDS = frozenset(
    word_list("""
    date; day; month; year; sold; datum; tag; monat; jahr; verkaufsdatum; fecha; dia; mes; ano; jour; mois; annee;
    data; giorno; mese; anno; maand; dag; jaar
""")
)  # common practice, no source


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
    undated = "sold_price" in table.columns and "sold_on" not in table.columns  # else "Year" is a vintage's
    named = [
        f"'{header}' ({', '.join(examples(header, table.unread[header]))})"
        for header, look in seen.items()
        if look.filled and (look.date > _MOST or (undated and _speaks_of_days(header)))
    ]
    if not named:
        return ()
    more = f" and {len(named) - _MOST_NAMED} more" if len(named) > _MOST_NAMED else ""
    return (Caution(f"Columns of days that were not read: {', '.join(named[:_MOST_NAMED])}{more}.", check),)


def _speaks_of_days(header: str) -> bool:
    """Whatever its cells are: "15-Jan", or a month of its own."""
    return bool(_DAY_WORDS.intersection(plain_words(header).split()))
