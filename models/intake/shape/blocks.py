"""Is a pallet named in the first row of its block alone?  Then the rows below belong to it too, until the next name."""

from collections.abc import Mapping, Sequence

from models.intake.grid import Cell, is_blank, plain_text
from models.values.problems import Caution

_FEWEST_BLOCKS = 2  # one name alone may be that row's
_FEWEST_ROWS = 1.5  # of a block on average; common practice, no source


def named_once(cells: Sequence[Cell]) -> bool:
    """True where the first row has a name, no name comes twice, and blanks stand between.

    Parameters
    ----------
    cells : sequence of Cell
        One column of the data rows.

    Examples
    --------
    >>> named_once(["P1", "", "", "P2", ""]), named_once(["P1", "P1", "", "P2"])
    (True, False)
    """
    names = [text for cell in cells if not is_blank(text := plain_text(cell))]
    if len(names) < _FEWEST_BLOCKS or is_blank(plain_text(cells[0])):
        return False
    return len(set(names)) == len(names) and len(cells) >= _FEWEST_ROWS * len(names)


def filled_in_blocks(cells: Sequence[Cell]) -> list[Cell]:
    """Each blank with the name above it.

    Examples
    --------
    >>> filled_in_blocks(["P1", "", "P2", ""])
    ['P1', 'P1', 'P2', 'P2']
    """
    filled: list[Cell] = []
    for cell in cells:
        filled.append(filled[-1] if filled and is_blank(plain_text(cell)) else cell)
    return filled


def block_columns(
    columns: Mapping[str, list[Cell]], headers: Mapping[str, str]
) -> tuple[dict[str, list[Cell]], tuple[Caution, ...]]:
    """The pallet filled down its blocks, and what is to be said of it.

    A category or brand may be left blank for its own reasons, so these stay as they are.

    Parameters
    ----------
    columns : mapping
        {canonical: one cell a data row}.
    headers : mapping
        {canonical: header in file}.

    Examples
    --------
    >>> filled, cautions = block_columns({"pallet": ["P1", "", "P2", ""]}, {"pallet": "Skid"})
    >>> filled, len(cautions)
    ({'pallet': ['P1', 'P1', 'P2', 'P2']}, 1)
    """
    cells = columns.get("pallet", [])
    if not named_once(cells):
        return {}, ()
    header = headers.get("pallet", "pallet")
    what = f"'{header}' is filled in the first row of each block alone: the rows below were counted to it."
    return {"pallet": filled_in_blocks(cells)}, (Caution(what, "Look at one row that the file leaves blank there."),)
