"""Does one file hold several lots?  Then the seller is asked which one the bid is for, or says that it is for all."""

from collections import Counter
from collections.abc import Mapping, Sequence

from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.grid import Cell, plain_text, written_cell
from models.intake.shape.answered import is_clear, names_meant, not_clear
from models.intake.shape.blocks import filled_in_blocks, named_once
from models.intake.shape.parts import Part, filled_down
from models.values.errors import NeedsColumns
from models.values.problems import Caution
from models.values.questions import ALL_LOTS, LOT_IS, Choice, Question

_LOT_HEADERS = frozenset(
    word_list("""
    lot; lot number; lot id; lot name; lot code; load; load number; load id; load name; auction lot; auction lot number;
    los; losnummer; lote; lotto
""")
)
_MOST_LOTS = 20
_FEWEST_ROWS = 1.5  # of a lot, on average; with fewer every row must have a lot of its own, as in a catalogue
_MOST_NAMED = 5


def lots_of(
    names: Sequence[Cell],
    rows: Sequence[Sequence[Cell]],
    kept: Sequence[int],
    parts: Sequence[Part],
    mapping: Mapping[str, str],
) -> tuple[list[str], tuple[Caution, ...]]:
    """The lot of each data row, from headings or from a column; all "" where the file does not hold several.

    A caution tells of a column of lots that nobody was asked about: it numbers the lines, or names too many to choose.

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
    mapping : mapping
        The seller's; where `lot_is` names a lot, any column of lots is believed.

    Examples
    --------
    >>> lots_of(["Lot #", "Item"], [["7", "Mug"], ["7", "Jug"], ["8", "Pot"], ["8", "Pan"]], [1, 2, 3, 4], [], {})
    (['7', '7', '8', '8'], ())
    >>> lots_of(["Lot #", "Item"], [["1", "Mug"], ["2", "Jug"], ["3", "Pot"]], [1, 2, 3], [], {})[0]
    ['', '', '']
    """
    if heading := [part for part in parts if part.is_lot]:
        headed = [str(name) for name in filled_down(heading, kept)]
        if len(set(headed) - {""}) > 1:
            return headed, ()
    named = mapping.get(LOT_IS, "").strip().lower() not in ("", ALL_LOTS)
    cautions: tuple[Caution, ...] = ()
    for place, name in enumerate(names):
        if plain_words(name) not in _LOT_HEADERS:
            continue
        lots = _lots_in([plain_text(row[place]) if place < len(row) else "" for row in rows])
        count = len(set(lots) - {""})
        if count < 2 or not (len(rows) >= _FEWEST_ROWS * count or "" not in lots):
            continue
        if named or (count <= _MOST_LOTS and not _number_lines(lots)):
            return lots, ()
        cautions = (_one_lot(written_cell(name), lots[0], count),)
    return [""] * len(rows), () if LOT_IS in mapping else cautions


def _lots_in(cells: list[Cell]) -> list[str]:
    return list(map(str, filled_in_blocks(cells) if named_once(cells) else cells))


def _number_lines(lots: Sequence[str]) -> bool:
    return list(lots) == [str(number) for number in range(1, len(lots) + 1)]


def _one_lot(header: str, first: str, count: int) -> Caution:
    what = f"The column '{header}' has {count:,} different entries; all lines were read as one lot."
    return Caution(
        what, f"If you bid on one of them alone, give its lines alone, or say which, for example lot_is={first}."
    )


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
