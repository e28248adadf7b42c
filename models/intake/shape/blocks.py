"""Is a pallet named in the first row of its block alone?  Then the rows below belong to it too, until the next name."""

from collections.abc import Mapping, Sequence

from models.intake.grid import Cell, is_blank, plain_text
from models.values.problems import Caution

# Names of blocks, and how many rows a block has on average at least; a category may be left blank for its own reasons.
_OF_BLOCKS: Mapping[str, float] = {"pallet": 1.2, "category": 3.0}  # common practice, no source


def named_once(cells: Sequence[Cell], fewest_rows: float) -> bool:
    """True where the first row has a name, no name comes twice, and blanks stand between.

    Parameters
    ----------
    cells : sequence of Cell
        One column of the data rows.
    fewest_rows : float
        Rows of a block on average, at least.

    Examples
    --------
    >>> named_once(["P1", "", "", "P2", ""], 1.2), named_once(["P1", "P1", "", "P2"], 1.2)
    (True, False)
    """
    names = [text for cell in cells if not is_blank(text := plain_text(cell))]
    if not names or is_blank(plain_text(cells[0])) or len(names) == len(cells):
        return False
    return len(set(names)) == len(names) and len(cells) >= fewest_rows * len(names)


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
    """Columns whose names stand once a block, filled down, and what is to be said of them.

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
    filled, cautions = {}, []
    for column, fewest in _OF_BLOCKS.items():
        cells = columns.get(column, [])
        if named_once(cells, fewest):
            filled[column] = filled_in_blocks(cells)
            what = (
                f"'{headers.get(column, column)}' is filled in the first row of each block alone: the rows below were "
            )
            cautions.append(Caution(f"{what}counted to it.", "Look at one row that the file leaves blank there."))
    return filled, tuple(cautions)
