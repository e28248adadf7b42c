"""Which lines does a manifest itself strike out?  A note or status says that they are void, pulled, missing or sold.

Common practice, no source.
"""

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import cast

from models.intake.cells.reading import ASIDE
from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.grid import Cell, plain_text
from models.intake.many import columns_of, distinct
from models.intake.shape.gone_names import struck_names
from models.intake.shape.gone_words import Gone, struck_in_note
from models.intake.shape.row_notes import RowNote
from models.values.problems import Caution

NOT_IN_LOT = "struck out by the file itself"
_NOTES = re.compile(
    r"\b(?:status|state|stage|notes?|remarks?|comments?|disposition|availability|action|info|bemerkung(?:en)?|hinweise?|"
    r"anmerkung(?:en)?|kommentare?|notiz(?:en)?|remarques?|commentaires?|observacion(?:es)?|notas?|estado|stato|statut|"
    r"opmerking(?:en)?|uwagi|condition)\b"
)
_ASKED = re.compile(r"(?:is )?(?:included|in(?: the)? (?:lot|load|pallet|sale)|enthalten|inclus|incluido|incluso)")
_NO = frozenset(word_list("no; n; nein; non; not; false; nee; nie; x no"))
_MOST = 0.5  # of the rows; what is said of more of them in the same words is said of the lot
_MOST_NAMED = 8


def struck_out(
    names: Mapping[int, str],
    rows: Sequence[Sequence[Cell]],
    numbers: Sequence[int],
    known: Mapping[str, Sequence[Cell]] = MappingProxyType({}),
    goods: Sequence[Cell] = (),
) -> tuple[list[RowNote], tuple[Caution, ...]]:
    """Notes on rows that the file says are not in the lot, and one caution for all that may be meant so.

    Parameters
    ----------
    names : mapping
        {position: header} of the columns that may say so.
    rows : sequence of sequences of Cell
        The data rows.
    numbers : sequence of int
        Their row numbers.
    known : mapping
        {header: cells} of more columns that may say so.
    goods : sequence of Cell
        The names of the goods, which may say so themselves.

    Examples
    --------
    >>> rows = [["Mug", "ok"], ["Jug", "PULLED"], ["Pot", "tag removed"]]
    >>> notes, cautions = struck_out({1: "Status"}, rows, [2, 3, 4])
    >>> [(note.index, note.value) for note in notes]
    [(1, 'Status: PULLED')]
    >>> cautions[0].what
    "Words of 1 row may mean that it is not in the lot: 'tag removed' (row 4). It was kept."
    """
    sure: dict[int, str] = {}
    maybe: dict[int, str] = {}
    for name, texts in (*_columns(names, rows), *known.items()):
        asked = bool(_ASKED.fullmatch(plain_words(name)))
        said = {text: _sort(plain_text(text), asked) for text in distinct(texts)}
        _tell(name, texts, said, sure, maybe)
    _tell("", goods, struck_names(_texts(goods)), sure, maybe)
    if len(sure) == len(rows):
        sure, maybe = {}, sure
    notes = [RowNote(index, "", text, NOT_IN_LOT, ASIDE) for index, text in sorted(sure.items())]
    return notes, _cautions({index: text for index, text in maybe.items() if index not in sure}, numbers)


def _texts(cells: Sequence[Cell]) -> Sequence[str]:
    if set(map(type, cells)) == {str}:
        return cast(Sequence[str], cells)
    return [cell for cell in cells if isinstance(cell, str)]


def _tell(
    name: str, texts: Sequence[Cell], said: Mapping[Cell, Gone], sure: dict[int, str], maybe: dict[int, str]
) -> None:
    """Sort the rows of one column by what it says; what most of them say in the same words is said of the lot."""
    if all(one is Gone.NO for one in said.values()):
        return
    found = {index: text for index, text in enumerate(texts) if said.get(text, Gone.NO) is not Gone.NO}
    counts = Counter(found.values())
    for index, text in found.items():
        told = maybe if said[text] is Gone.MAYBE or counts[text] > _MOST * len(texts) else sure
        named = f"{name}: {plain_text(text)}" if name and told is sure else str(text)
        told.setdefault(index, named)


def _columns(names: Mapping[int, str], rows: Sequence[Sequence[Cell]]) -> Iterator[tuple[str, list[Cell]]]:
    told = {
        place: name
        for place, name in names.items()
        if _NOTES.search(words := plain_words(name)) or _ASKED.fullmatch(words)
    }
    yield from zip(told.values(), columns_of(rows, list(told)), strict=True)


def _sort(text: str, asked: bool) -> Gone:
    return Gone.SURE if asked and text.casefold() in _NO else struck_in_note(text)


def _cautions(maybe: Mapping[int, str], numbers: Sequence[int]) -> tuple[Caution, ...]:
    if not maybe:
        return ()
    listed = [f"'{text[:40]}' (row {numbers[index]})" for index, text in sorted(maybe.items())]
    named = ", ".join(listed[:_MOST_NAMED]) + (", ..." if len(listed) > _MOST_NAMED else "")
    one = len(maybe) == 1
    rows, mean, kept = ("row", "it is", "It was") if one else ("rows", "they are", "They were")
    what = f"Words of {len(maybe):,} {rows} may mean that {mean} not in the lot: {named}. {kept} kept."
    return (Caution(what, "Ask what is meant, and take out of the file what is not in the lot."),)
