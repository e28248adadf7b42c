"""Is a file a list of cards, "Item: Kettle" above "Qty: 3", and no table?  Then it is refused, in words that help."""

import re
from collections import Counter
from collections.abc import Sequence

from models.intake.cells.wordings import plain_words
from models.intake.columns.header_words import PART, header_scores
from models.intake.columns.vocabulary import Vocabulary
from models.intake.grid import Cell, Grid, written_cell
from models.values.errors import Unreadable

_LOOKED_AT = 80  # rows
_MOSTLY = 0.8  # of the rows; common practice, no source
_FEWEST = 2  # fields that are columns by their names, each of them twice
_FIELD = re.compile(r"([^\W\d_][\w #./-]{0,30}?)\s*[:=](?:\s+\S.*|\s*)", re.DOTALL)
_PAIR = 2


def refuse_cards(grid: Grid, filename: str, vocabulary: Vocabulary) -> None:
    """Refuse a file in which the fields of a thing stand below each other, thing after thing.

    Parameters
    ----------
    grid : Grid
        Its only sheet.
    filename : str
        Its name, for the message.
    vocabulary : Vocabulary
        The kind of file.

    Raises
    ------
    Unreadable
        If it is such a list.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> rows = [["Item: Mug"], ["Qty: 3"], ["Item: Jug"], ["Qty: 1"]]
    >>> try:
    ...     refuse_cards(Grid("", rows, 1), "x.txt", MANIFEST)
    ... except Unreadable as error:
    ...     print(error.message.partition(":")[0])
    x.txt is not a table
    """
    rows = [row for row in grid.rows[:_LOOKED_AT] if any(cell != "" for cell in row)]
    fields = Counter(filter(None, map(_field, rows)))
    often = {name: count for name, count in fields.items() if count >= _FEWEST}
    if sum(often.values()) < _MOSTLY * len(rows):
        return
    columns = [name for name in often if _names_column(name, vocabulary)]
    if len(columns) >= _FEWEST:
        named = ", ".join(f"'{name}'" for name in columns[:3])
        raise Unreadable(
            f"{filename} is not a table: it lists {named} below each other, one thing after another. Put each thing in "
            "one row, with a column for each of these, and upload that."
        )


def _field(row: Sequence[Cell]) -> str:
    """The name of the field that a row tells, "" for any other row."""
    filled = [written_cell(cell).strip() for cell in row if cell != ""]
    found = _FIELD.fullmatch(filled[0])
    if found:
        return found[1].strip()
    return filled[0] if len(filled) == _PAIR and not any(map(str.isdigit, filled[0])) else ""


def _names_column(name: str, vocabulary: Vocabulary) -> bool:
    return any(score > PART for score in header_scores(plain_words(name), vocabulary).values())
