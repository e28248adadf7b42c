"""Does one file hold several lots?  Then the seller is asked which one the bid is for, or says that it is for all."""

from collections import Counter
from collections.abc import Mapping, Sequence

from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.grid import Cell, plain_text
from models.intake.shape.answered import is_clear, names_meant, not_clear
from models.intake.shape.blocks import filled_in_blocks, named_once
from models.intake.shape.parts import Part, filled_down
from models.values.errors import NeedsColumns
from models.values.questions import ALL_LOTS, LOT_IS, Choice, Question

_LOT_HEADERS = frozenset(
    word_list("""
    lot; lot number; lot id; lot name; lot code; load; load number; load id; load name; auction lot; auction lot number;
    los; losnummer; lote; lotto
""")
)
_MOST_LOTS = 20
_FEWEST_ROWS = 1.5  # of a lot, on average; with fewer the column numbers the lines
_MOST_NAMED = 5


def lots_of(
    names: Sequence[Cell], rows: Sequence[Sequence[Cell]], kept: Sequence[int], parts: Sequence[Part]
) -> list[str]:
    """The lot of each data row, from headings or from a column; all "" where the file does not hold several.

    Parameters
    ----------
    names : sequence of Cell
        The headers.
    rows : sequence of sequences of Cell
        The data rows.
    kept : sequence of int
        Their positions in the grid.
    parts : sequence of Part
        What headings open.

    Examples
    --------
    >>> lots_of(["Lot #", "Item"], [["7", "Mug"], ["7", "Jug"], ["8", "Pot"], ["8", "Pan"]], [1, 2, 3, 4], [])
    ['7', '7', '8', '8']
    """
    if heading := [part for part in parts if part.is_lot]:
        headed = [str(name) for name in filled_down(heading, kept)]
        if len(set(headed) - {""}) > 1:
            return headed
    for place, name in enumerate(names):
        if plain_words(name) not in _LOT_HEADERS:
            continue
        cells: list[Cell] = [plain_text(row[place]) if place < len(row) else "" for row in rows]
        lots = list(map(str, filled_in_blocks(cells) if named_once(cells) else cells))
        distinct = len(set(lots) - {""})
        if 1 < distinct <= _MOST_LOTS and len(rows) >= _FEWEST_ROWS * distinct:
            return lots
    return [""] * len(rows)


def other_lots(lots: Sequence[str], mapping: Mapping[str, str], headers: Sequence[str]) -> list[int]:
    """Places of the rows that are not of the lot the seller named; none where the file is taken whole.

    A part of a lot's name is enough where it fits one lot alone.

    Raises
    ------
    NeedsColumns
        If there are several lots and the mapping names none of them, or several.

    Examples
    --------
    >>> other_lots(["7", "7", "8"], {"lot_is": "7"}, ["Item"]), other_lots(["7", "8"], {"lot_is": "all"}, ["Item"])
    ([2], [])
    """
    counts = Counter(lot for lot in lots if lot)
    wanted = mapping.get(LOT_IS, "").strip()
    if len(counts) < 2 or wanted.lower() == ALL_LOTS:
        return []
    meant = names_meant(wanted, list(counts)) if wanted else []
    if is_clear(meant):
        return [place for place, lot in enumerate(lots) if lot not in meant]
    raise _which(counts, headers, not_clear(wanted, meant, "lots") if wanted else "")


def _which(counts: Counter[str], headers: Sequence[str], unclear: str) -> NeedsColumns:
    listed = ", ".join(f"'{lot}' ({_rows(count)})" for lot, count in counts.most_common(_MOST_NAMED))
    choices = (
        *(Choice(lot, f"{lot}: {_rows(count)}") for lot, count in counts.items()),
        Choice(ALL_LOTS, "all of them together, as one lot"),
    )
    words = f"{unclear}The file holds several lots. Which one do you want to bid on?"
    said = f"{unclear}The manifest holds {len(counts)} lots: {listed}."
    message = f"{said} Say which one you bid on, or 'all' for all together."
    return NeedsColumns(message, (LOT_IS,), headers, (Question(LOT_IS, words, choices),))


def _rows(count: int) -> str:
    return f"{count:,} row{'' if count == 1 else 's'}"
