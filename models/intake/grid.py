"""What is a table before anyone knows what it means?  Rows of cells, with the row numbers a spreadsheet shows."""

import datetime as dt
import html
import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeGuard, cast

Cell = str | int | float | dt.date  # "" for blank; text is stripped

_BLANK_MARKS = frozenset(
    {"-", "--", "---", "–", "—", ".", "?", "n/a", "na", "n.a.", "#n/a", "none", "null", "nan", "nil"}
)
_LONGEST_MARK = max(map(len, _BLANK_MARKS))
_MAYBE_ENTITY = re.compile("&(?! )")
_FORMULA_TEXT = re.compile(r'="(.*)"', re.DOTALL)
# What spreadsheets leave in English, German, French, Spanish, Italian and Dutch where a formula has lost its value.
_LOST_FORMULA = re.compile(
    r"#(?:(?:REF|VALUE|NAME|NULL|NUM|DIV/0|SPILL|CALC|BEZUG|WERT|ZAHL|VALEUR|NOM|NOMBRE|RIF|VALORE|NOME|VERW|WAARDE|NAAM|"
    r"GETAL|¡REF|¡VALOR|¿NOMBRE|¡NUM|¡DIV/0)[!?]|N/A|N/?V|N/?D|N/B|GETTING_DATA)",
    re.IGNORECASE,
)
_GUARDED = re.compile(r"'(?=[=+\-@\t\r])")
# Marks without width that say how text runs (Unicode Standard Annex 9) or where a file began; joiners make emoji.
_UNSEEN = re.compile("[\u200b\u200e\u200f\u202a-\u202e\u2060\u2066-\u2069\ufeff\u00ad]")


# Arabic-Indic and Persian digits with their own decimal and thousands signs (Unicode Standard, U+0660 and U+06F0).
_DIGITS = str.maketrans(
    {0x0660 + digit: str(digit) for digit in range(10)}
    | {0x06F0 + digit: str(digit) for digit in range(10)}
    | {0x066B: ".", 0x066C: ","}
)


@dataclass(frozen=True)
class CellNote:
    """A cell, or with `place` None a whole row, that reached us damaged."""

    row: int  # 1-based row as a spreadsheet shows it
    place: int | None  # of the cell in its row, from 0
    value: str
    reason: str  # in a seller's words
    done: str


@dataclass(frozen=True)
class Grid:
    """One sheet or one delimited file; rows may be shorter than others."""

    name: str  # of the sheet, "" for a delimited file
    rows: list[list[Cell]]
    first_row: int  # 1-based row of `rows[0]` as a spreadsheet shows it
    decimal_comma_likely: bool = False  # separated by semicolons, as lists with decimal commas are
    mended: frozenset[int] = frozenset()  # row numbers whose quotation mark was never closed
    notes: tuple[CellNote, ...] = ()
    merged: tuple[tuple[int, int, int, int], ...] = ()  # top, left, bottom, right: from 0, both ends included
    hidden_rows: frozenset[int] = frozenset()  # row numbers
    hidden: bool = False  # the sheet is
    on_its_side: bool = False  # its rows are the columns of the file
    blind: str = ""  # the kind of file, where it cannot be seen which rows are hidden
    formats: tuple[tuple[int, str], ...] = ()  # position of a column, a currency that the formats of its numbers show
    beside: tuple[str, ...] = ()  # names of texts in the same archive, which are not read

    @property
    def width(self) -> int:
        """Cells of the longest row."""
        return max(map(len, self.rows), default=0)


def unwrapped(text: str) -> str:
    """Text without the armour of exports (`="007"`, the apostrophe before a formula sign) and marks nobody sees.

    Examples
    --------
    >>> unwrapped('="007"'), unwrapped("'-5"), unwrapped(" a ")
    ('007', '-5', 'a')
    """
    text = (text if text.isascii() else _UNSEEN.sub("", text)).strip()
    if text.startswith('="'):
        found = _FORMULA_TEXT.fullmatch(text)
        return found[1].strip() if found else text
    return _GUARDED.sub("", text, count=1) if text.startswith("'") else text


def written_cell(cell: Cell) -> str:
    """The cell as a person would read it.

    Examples
    --------
    >>> written_cell(2.0), written_cell(0.5), written_cell(dt.date(2026, 7, 1)), written_cell("a")
    ('2', '0.5', '2026-07-01', 'a')
    """
    if isinstance(cell, str):
        return cell
    if isinstance(cell, dt.date):
        return cell.isoformat()
    return str(int(cell)) if cell == int(cell) else repr(cell)


def is_lost_formula(text: str) -> bool:
    """True for what a spreadsheet shows where a formula has no value any more.

    Examples
    --------
    >>> is_lost_formula("#REF!"), is_lost_formula("#WERT!"), is_lost_formula("#1 dad mug")
    (True, True, False)
    """
    return text.startswith("#") and bool(_LOST_FORMULA.fullmatch(text))


def plain_text(cell: Cell) -> str:
    """One line of words: entities resolved, compatibility forms folded, white space single, "" for marks of absence.

    Examples
    --------
    >>> plain_text("Cups &amp;\\n saucers"), plain_text("N/A"), plain_text(7)
    ('Cups & saucers', '', '7')
    """
    if (  # most cells: nothing in them could have to be changed; an ampersand before a space begins no entity
        isinstance(cell, str)
        and len(cell) > _LONGEST_MARK
        and cell.isprintable()
        and "  " not in cell
        and cell[0] != " " != cell[-1]
        and not _MAYBE_ENTITY.search(cell)
    ):
        return cell
    text = written_cell(cell)
    if "&" in text:
        text = html.unescape(text)
    text = " ".join(text.split())
    return "" if text.lower() in _BLANK_MARKS else text


def row_text(row: Sequence[Cell]) -> str:
    """The row's words, cell after cell; two spaces part cells, so that numbers beside each other stay two.

    Examples
    --------
    >>> row_text(["Units:", "", 12])
    'Units:  12'
    """
    return "  ".join(text for cell in row if (text := plain_text(cell)))


def are_plain(cells: Sequence[Cell]) -> TypeGuard[Sequence[str]]:
    """Whether each is a text that `plain_text` surely leaves as it stands; asked of all at once.

    Examples
    --------
    >>> are_plain(["Blue mug", "Cups & saucers"]), are_plain(["Blue  mug"]), are_plain(["Blue mug", 7])
    (True, False, False)
    """
    if set(map(type, cells)) != {str}:
        return False
    texts = cast(list[str], list(cells))
    together = "".join(texts)
    return (
        min(map(len, texts)) > _LONGEST_MARK
        and together.isprintable()
        and list(map(str.strip, texts)) == texts
        and "  " not in together
        and not _MAYBE_ENTITY.search(together)
    )


def without_case(text: str) -> str:
    """Small letters, all sorts of i as one: where these do not fit, no pattern that ignores case does.

    Examples
    --------
    >>> without_case("BİN 5"), without_case("Maß")
    ('bin 5', 'mass')
    """
    return text.lower() if text.isascii() else text.casefold().replace("\u0307", "").replace("ı", "i")


def folded(cell: Cell) -> str:
    """Digits of other scripts and no-break spaces made plain, white space single: for cells that are read, not kept.

    Examples
    --------
    >>> folded("１2\\u00a0EA"), folded("\u0661\u066b\u0665")
    ('12 EA', '1.5')
    """
    text = written_cell(cell)
    if not text.isascii():
        text = unicodedata.normalize("NFKC", text).translate(_DIGITS)
    return " ".join(text.split())


def is_blank(text: str) -> bool:
    """True for nothing and for the usual marks of absence such as "-" and "N/A".

    Examples
    --------
    >>> is_blank(""), is_blank("n/a"), is_blank("0")
    (True, True, False)
    """
    return not text or text.lower() in _BLANK_MARKS
