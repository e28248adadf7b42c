"""Listings of several units, and variations: "sold 6, left 14" is a sale of six and a listing of fourteen.

Rows below a listing that carry only a variation take its words; the listing's own row is then a heading.
"""

import re
from dataclasses import dataclass, replace

import numpy as np

from models.intake.cells.number_texts import bare, decimal_of
from models.intake.cells.reading import ASIDE, BLANK
from models.intake.cells.wordings import plain_words
from models.intake.grid import Cell, is_blank, plain_text, written_cell
from models.intake.sales.price_or_asked import says_fetched
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import IntArray
from models.values.problems import Caution

NOT_TOLD = -1
_SOLD_LEFT = re.compile(
    r"^\D*?(?:(?:sold|verkauft|vendus?)\W*(?P<s1>\d+)|(?P<s2>\d+)\s*(?:units?\s*)?(?:sold|verkauft|vendus?))\W+(?:and\s+)?"
    r"(?:(?:left|available|remaining|in stock|übrig|restants?)\W*(?P<l1>\d+)"
    r"|(?P<l2>\d+)\s*(?:units?\s*)?(?:left|available|remaining|in stock|übrig|restants?))\D*$",
    re.IGNORECASE,
)
_OF_SOLD = re.compile(r"^\s*(?P<sold>\d+)\s*(?:of|/|von)\s*(?P<all>\d+)\s*(?:sold|verkauft)\s*$", re.IGNORECASE)
_MOST_UNITS = 1_000_000
# What a listing's own row tells of all its variations; its day of listing is theirs too.
_OF_LISTING = (
    "brand", "category", "condition", "listing_ref", "listed_on", "first_listed_on", "ended_on", "status",
    "asking_price",
)  # fmt: skip


@dataclass(frozen=True)
class Counts:
    """Units that each row says were sold and are left, NOT_TOLD where it does not; the table with plain quantities."""

    table: Table
    sold: IntArray
    left: IntArray


def unit_counts(table: Table, findings: Findings) -> Counts:
    """What columns, or words in the quantity, say of units sold and left.

    Parameters
    ----------
    table : Table
        The file.
    findings : Findings
        Told of counts that are none.
    """
    table = _with_sure_count(table)
    sold, left = (_column(table, name, findings) for name in ("sold_count", "left"))
    cells = list(table.cells("quantity"))
    known = {cell: sold_and_left(cell) for cell in set(cells)}
    for row, cell in enumerate(cells):
        said = known[cell]
        if said is not None:
            sold[row], left[row] = said
            cells[row] = max(said[0], 1)
    own = [
        str(max(int(units), 1)) if units != NOT_TOLD else cell for units, cell in zip(sold.tolist(), cells, strict=True)
    ]
    has = "quantity" in table.columns or bool((sold != NOT_TOLD).any())
    columns: dict[str, list[Cell]] = {**table.columns, **({"quantity": list(own)} if has else {})}
    return Counts(replace(table, columns=columns), sold, left)


def sold_and_left(cell: Cell) -> tuple[int, int] | None:
    """Both numbers where a cell says both.

    Examples
    --------
    >>> sold_and_left("sold 6, left 14"), sold_and_left("6 sold / 14 available"), sold_and_left("6 of 20 sold")
    ((6, 14), (6, 14), (6, 14))
    >>> sold_and_left("20")
    """
    if not isinstance(cell, str) or len(cell) > 60 or not any(map(str.isalpha, cell)):
        return None
    found = _SOLD_LEFT.match(cell)
    if found:
        return int(found["s1"] or found["s2"]), int(found["l1"] or found["l2"])
    found = _OF_SOLD.match(cell)
    return (int(found["sold"]), max(int(found["all"]) - int(found["sold"]), 0)) if found else None


def _with_sure_count(table: Table) -> Table:
    """A column just called "Sold" counts units where another tells what is left, or a price what each sold for."""
    words = plain_words(table.headers.get("sold_count", ""))
    if len(words.split()) != 1 or "left" in table.columns or says_fetched(table.headers.get("sold_price", "")):
        return table
    return replace(table, columns={name: cells for name, cells in table.columns.items() if name != "sold_count"})


def unsure_count(table: Table, counted: Table) -> tuple[Caution, ...]:
    """What is to be said of a column that may count units that sold, and was not read."""
    if "sold_count" not in table.columns or "sold_count" in counted.columns:
        return ()
    what = f"'{table.headers['sold_count']}' was not read: it may count units that sold, or say what each sold for."
    return (Caution(what, "Name it as what it is: sold_count, or sold_price."),)


def _column(table: Table, name: str, findings: Findings) -> IntArray:
    counts = np.full(len(table), NOT_TOLD, dtype=np.int64)
    for row, cell in enumerate(table.columns.get(name, [])):
        text = written_cell(cell).strip()
        if is_blank(text):
            continue
        number = decimal_of(bare(text)[0], False)[0] if bare(text)[0] else None
        if number is None or number < 0 or number != int(number) or number > _MOST_UNITS:
            findings.name(row, name, cell, "not a number of units", BLANK)
        else:
            counts[row] = int(number)
    return counts


def with_variations(table: Table, findings: Findings) -> Table:
    """Titles with their variation's words; a listing's row above its variations is set aside as their heading.

    Parameters
    ----------
    table : Table
        The file.
    findings : Findings
        Told of headings and of the titles that were filled down.
    """
    if "variation" not in table.columns:
        return table
    titles, told = list(table.cells("title")), [plain_text(cell) for cell in table.cells("variation")]
    refs = [plain_text(cell) for cell in table.cells("listing_ref")]
    parent = None
    listing_of: dict[int, int] = {}  # variation's row -> its listing's
    for row, cell in enumerate(table.cells("title")):
        title = plain_text(cell)
        if title and not told[row]:
            parent = row
        elif not title and told[row] and parent is not None and refs[row] in ("", refs[parent]):
            titles[row] = f"{plain_text(titles[parent])} {told[row]}"
            listing_of[row] = parent
            findings.name(row, "title", "", "a variation of the row above", f"called '{titles[row]}'"[:200])
            if not findings.aside[parent]:
                findings.name(parent, "", "", "its variations stand in the rows below", ASIDE)
        elif title and told[row] and told[row].casefold() not in title.casefold():
            titles[row] = f"{title} {told[row]}"
    return replace(table, columns={**table.columns, **_filled_down(table, listing_of), "title": titles})


def _filled_down(table: Table, listing_of: dict[int, int]) -> dict[str, list[Cell]]:
    made = {name: list(cells) for name, cells in table.having(_OF_LISTING).items()}
    for cells in made.values():
        for row, parent in listing_of.items():
            cells[row] = cells[parent] if is_blank(written_cell(cells[row])) else cells[row]
    return made
