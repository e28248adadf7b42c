"""What is a row's category where two columns say it?  A path: "Toys" beside "Board games" is "Toys > Board games"."""

from models.intake.fields.text_columns import text_column
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import TextArray, texts

_BELOW = "category_below"  # internal column: the second part of the path
_STEP = " > "


def category_column(table: Table, findings: Findings) -> TextArray:
    """The category of each row, "" for none.

    Parameters
    ----------
    table : Table
        The file.
    findings : Findings
        Told of cells that cannot be read.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> from models.intake.shape.table import read_table
    >>> table = read_table(b"Item,Category,Subcategory\\nMug,Kitchen,Cups\\nJug,Kitchen,\\n", "m.csv", MANIFEST, {})
    >>> category_column(table, Findings(table.rows)).tolist()
    ['Kitchen > Cups', 'Kitchen']
    """
    top = text_column(table, "category", findings)
    if _BELOW not in table.columns:
        return top
    pairs = list(zip(top.tolist(), text_column(table, _BELOW, findings).tolist(), strict=True))
    paths = {pair: _path(*pair) for pair in dict.fromkeys(pairs)}
    return texts(list(map(paths.__getitem__, pairs)))


def _path(top: str, below: str) -> str:
    """A second part that repeats the first adds nothing, or is the path already."""
    if not below or below.casefold() in map(str.strip, top.casefold().split(">")):
        return top
    return below if not top or below.casefold().split(">")[0].strip() == top.casefold() else f"{top}{_STEP}{below}"
