"""What is a column called that a seller must find again?  Its header; the same header twice, or none, gets a number.

A column without a header is called by its spreadsheet letter.
"""

import re
from collections import Counter
from collections.abc import Mapping, Sequence

from models.intake.cells.wordings import plain_words
from models.intake.grid import Cell, written_cell
from models.values.questions import NO_COLUMN, is_answer

TOGETHER = " + "  # between columns that count the units of a line together
_LETTERED = re.compile(r"column ([A-Z]{1,3})", re.IGNORECASE)


def letter(place: int) -> str:
    """What a spreadsheet calls a column, counted from 0.

    Examples
    --------
    >>> letter(0), letter(25), letter(26), letter(702)
    ('A', 'Z', 'AA', 'AAA')
    """
    letters = ""
    while place >= 0:
        letters = chr(ord("A") + place % 26) + letters
        place = place // 26 - 1
    return letters


def column_names(headers: Sequence[Cell], filled: Sequence[bool]) -> list[str]:
    """One name a column, no two alike; "" for a column that holds nothing.

    Parameters
    ----------
    headers : sequence of Cell
        The header row, as long as the table is wide.
    filled : sequence of bool
        Whether the column has any cell below its header.

    Examples
    --------
    >>> column_names(["Item", "", "Price", " Price", ""], [True, True, True, True, False])
    ['Item', 'column B', 'Price', 'Price (2)', '']
    """
    written = [" ".join(written_cell(header).split()) for header in headers]
    taken: Counter[str] = Counter()
    names = []
    for place, name in enumerate(written):
        said = name or (f"column {letter(place)}" if filled[place] else "")
        taken[said] += 1
        names.append(said if taken[said] == 1 or not said else _numbered(said, taken[said], written))
    return names


def _numbered(name: str, number: int, written: Sequence[str]) -> str:
    said = f"{name} ({number})"
    return said if said not in written else _numbered(name, number + 1, written)


def is_lettered(name: str) -> bool:
    """True for the name of a column without a header.

    Examples
    --------
    >>> is_lettered("column B"), is_lettered("Column width")
    (True, False)
    """
    return bool(_LETTERED.fullmatch(name))


def place_of(name: str, names: Sequence[str]) -> int | None:
    """Position of the column called so: as it is written, else by its plain words; None where there is none.

    Examples
    --------
    >>> place_of("what it is", ["No", "What it is"]), place_of("column a", ["column A"]), place_of("-", ["-"])
    (1, 0, None)
    """
    said = " ".join(name.split())
    if not said or said == NO_COLUMN:
        return None
    if said in names:
        return names.index(said)
    plain = plain_words(said)
    plains = [plain_words(other) for other in names]
    return plains.index(plain) if plain and plain in plains else None


def places_together(said: str, names: Sequence[str]) -> list[int]:
    """Positions of several columns that are named as a sum; none where one column is named, or not all are there.

    Examples
    --------
    >>> names = ["Item", "Qty East", "Qty West"]
    >>> places_together("Qty East + Qty West", names), places_together("Qty East + Qty", names)
    ([1, 2], [])
    """
    if TOGETHER not in said or place_of(said, names) is not None:
        return []
    places = [place_of(part, names) for part in said.split(TOGETHER)]
    return [place for place in places if place is not None] if None not in places else []


def places_of(mapping: Mapping[str, str], names: Sequence[str]) -> dict[str, int]:
    """Positions of the columns a mapping names; those this file does not have are passed over.

    Examples
    --------
    >>> places_of({"description": "What it is", "brand": "Maker"}, ["No", "What it is"])
    {'description': 1}
    """
    found = {column: place_of(header, names) for column, header in mapping.items()}
    return {column: place for column, place in found.items() if place is not None}


def named_twice(mapping: Mapping[str, str], names: Sequence[str] = ()) -> dict[str, str]:
    """{canonical: why it cannot be used} of a mapping's columns that share one header.

    Parameters
    ----------
    mapping : mapping
        {canonical: header in file}, with answers among them.
    names : sequence of str
        The file's columns; none where the file was not read yet, then headers are compared as they are written.

    Examples
    --------
    >>> named_twice({"quantity": "Price", "tag_each": " price", "sku": "Code"}, ["Code", "Price"])
    {'quantity': "'Price' is named for another column, too", 'tag_each': "'price' is named for another column, too"}
    >>> named_twice({"quantity": "-", "tag_each": "-", "sku": "Code"})
    {}
    """
    headers = {
        column: " ".join(header.split())
        for column, header in mapping.items()
        if not is_answer(column) and header.strip() not in ("", NO_COLUMN)
    }
    held: dict[int | str, list[str]] = {}
    for column, header in headers.items():
        place = place_of(header, names) if names else header
        if place is not None:
            held.setdefault(place, []).append(column)
    shared = [column for sharing in held.values() if len(sharing) > 1 for column in sharing]
    return {column: f"'{headers[column]}' is named for another column, too" for column in shared}
