"""Do several columns count the units of a line together?  Only the seller can say: "Qty East + Qty West"."""

from collections.abc import Mapping, Sequence

from models.intake.columns.column_names import column_names, place_of
from models.intake.columns.column_questions import TOGETHER
from models.intake.grid import Cell


def summed_places(mapping: Mapping[str, str], names: Sequence[Cell], samples: Sequence[Sequence[Cell]]) -> list[int]:
    """Positions of the columns whose sum a mapping names as the quantity; none where it names one column.

    Parameters
    ----------
    mapping : mapping
        The seller's.
    names : sequence of Cell
        The headers.
    samples : sequence of sequences of Cell
        Some cells of each column.

    Examples
    --------
    >>> summed_places({"quantity": "Qty East + Qty West"}, ["Item", "Qty East", "Qty West"], [["Mug"], ["2"], ["1"]])
    [1, 2]
    >>> summed_places({"quantity": "Qty East + Qty"}, ["Item", "Qty East", "Qty West"], [["Mug"], ["2"], ["1"]])
    []
    """
    said = mapping.get("quantity", "")
    called = column_names(names, [any(cell != "" for cell in cells) for cells in samples])
    if TOGETHER not in said or place_of(said, called) is not None:
        return []
    places = [place_of(part, called) for part in said.split(TOGETHER)]
    return [place for place in places if place is not None] if None not in places else []
