"""Words alone among lines that all tell more are headings, notes or more words of a name, and no goods.

Common practice, no source: nine lines in ten carry a quantity, a tag or a code, and such words are rarer than half of
them; where they are not, it is the file's way of writing goods.
"""

from collections.abc import Mapping, Sequence

from models.intake.grid import Cell, is_blank
from models.intake.limits import SAMPLE_ROWS

_CARRIED = ("quantity", "tag_each", "tag_line", "sku", "gtin")
_MOSTLY, _RARE, _FEWEST = 0.9, 0.5, 3  # shares of the other lines, and how many of these there must be


def no_goods_alone(
    rows: Sequence[Sequence[Cell]], lone: Sequence[int], data: Sequence[int], columns: Mapping[str, int]
) -> bool:
    """Whether rows with nothing but words where the goods stand are no goods.

    Parameters
    ----------
    rows : sequence of sequences of Cell
        The sheet.
    lone : sequence of int
        Positions of these rows.
    data : sequence of int
        Positions of all rows that read like goods, the same rows among them.
    columns : mapping
        {canonical: position of the column}.

    Examples
    --------
    >>> rows = [["Kitchen", ""], ["Mug", 2], ["Jug", 1], ["Pan", 4], ["Pot", ""], ["Lid", ""]]
    >>> no_goods_alone(rows, [0], [0, 1, 2, 3], {"quantity": 1})
    True
    >>> no_goods_alone(rows, [0, 4, 5], [0, 1, 2, 3, 4, 5], {"quantity": 1})
    False
    """
    places = [columns[name] for name in _CARRIED if name in columns]
    count = len(data) - len(lone)
    if not lone or not places or count < _FEWEST or len(lone) > _RARE * count:
        return False
    alone = set(lone)
    sample = [rows[index] for index in data[: SAMPLE_ROWS + len(lone)] if index not in alone][:SAMPLE_ROWS]
    carrying = sum(1 for row in sample if any(_fills(row, place) for place in places))
    return carrying >= _MOSTLY * len(sample)


def _fills(row: Sequence[Cell], place: int) -> bool:
    return place < len(row) and not is_blank(str(row[place]))
