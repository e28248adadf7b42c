"""Which rows below the header are data?  Blank rows, repeated headers, totals, headings and notes are not."""

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from statistics import median

from models.intake.grid import Cell, Grid, is_blank
from models.intake.limits import SAMPLE_ROWS
from models.intake.number_texts import bare, decimal_of
from models.intake.word_lists import word_list
from models.intake.wordings import plain_words

Row = Sequence[Cell]

_WHOSE = "|".join(
    word_list("""
    grand; sub; running; pallet; lot; page; overall; manifest; order; column; report; final; net; file; sheet; load
""")
)
_COUNTED = "|".join(
    word_list("""
    units?; items?; pieces; pcs; qty; quantity; retail; msrp; value; lines?; lots?; cost; price; amount; skus?; ext;
    extended; rrp; pallets?
""")
)
_ABROAD = "|".join(
    word_list("""
    (?:gesamt|zwischen)?summen?(?: gesamt)?:?; gesamt:?; somme:?; sous[ -]total:?; total g[eé]n[eé]ral:?; suma:?;
    totale:?; totaal:?; sum:?
""")
)
_TOTAL = re.compile(
    rf"(?:(?:{_WHOSE})[\s-]*)*totals?(?:\s+(?:{_COUNTED}))*\s*[:=]?\s*(?:\d[\d.,\s]*)?|{_ABROAD}", re.IGNORECASE
)
_NOTE = re.compile(
    "|".join(
        word_list(r"""
        \*; notes?\b; n\.?b\.?\b; please\b; all (?:sales|items|goods|prices)\b; this
        (?:list|manifest|file|report|lot)\b; the (?:list|manifest)\b; manifest\b; page \d; printed\b; generated\b;
        created (?:on|by)\b; prepared by\b; exported\b; end of\b; continued\b; contact\b; terms\b; disclaimer; see
        (?:also|the)\b; www\.; https?://; thank you; questions?\b; for questions; hinweis; bemerkung; alle angaben;
        \S+@\S+\.\S+$
    """)
    ),
    re.IGNORECASE,
)
_HEADING = re.compile(
    r"(?:pallets?|skid|gaylord|lot|box|truck|load|palette|section|sheet|part|carton)\s*(?:#|no\.?|number)?\s*"
    r"[\w-]*\d[\w-]*(?:\s*(?:of|/|-|:|–|,|\().*)?|.*:",
    re.IGNORECASE,
)
_RULE = re.compile(r"[-=_*.~#\s–—]+")
_FEW, _USUAL = 2, 4  # cells of a label with its value, against a table at least this wide
_MOST_WORDLESS = 20  # rows without words that are compared with the sums above them


def data_rows(grid: Grid, header: int, columns: Mapping[str, int], name: str) -> list[int]:
    """Positions in `grid.rows` of the data rows, in order.

    Parameters
    ----------
    grid : Grid
        One sheet.
    header : int
        Position of the header row.
    columns : mapping
        {canonical: position of the column}.
    name : str
        The canonical column that names the goods.

    Examples
    --------
    >>> rows = [["Description", "Qty", "SKU"], ["Mug", "2", "a"], ["", "", ""], ["Description", "Qty", "SKU"],
    ...         ["Jug", "1", "b"], ["Total", "3", ""], ["All sales final", "", ""]]
    >>> data_rows(Grid("", rows, 1), 0, {"description": 0, "quantity": 1, "sku": 2}, "description")
    [1, 4]
    """
    judge = _Judge(grid.rows, header, columns, name)
    kept: list[int] = []
    for index in range(header + 1, len(grid.rows)):
        if judge.is_data(grid.rows[index]):
            kept.append(index)
    return _without_sums(grid.rows, kept, columns[name])


class _Judge:
    """Knows the table's usual shape; sees its rows in order, since what follows a total is rarely goods."""

    def __init__(self, rows: Sequence[Row], header: int, columns: Mapping[str, int], name: str) -> None:
        self._header = rows[header]
        self._name = columns[name]
        self._identity = [columns[column] for column in ("brand", "sku", "gtin") if column in columns]
        sample = rows[header + 1 : header + 1 + SAMPLE_ROWS]
        self._usual = _usual_cells(sample, _filled(self._header))
        names = [str(cell) for row in sample if _filled(row) > 1 and (cell := _cell(row, self._name)) != ""]
        self._shouting = sum(map(str.isupper, names)) > 0.3 * len(names)
        self._header_name = plain_words(_cell(self._header, self._name))
        self._longest_header = len(str(_cell(self._header, self._name))) + 4
        self._after_total = self._after_blank = False

    def is_data(self, row: Row) -> bool:
        filled = _filled(row)
        if not filled:
            self._after_blank = True
            return False
        text = _cell(row, self._name)
        if filled > _FEW and isinstance(text, str) and text and not _odd(text) and not self._is_repeat(row, text):
            self._after_total = self._after_blank = False
            return True
        if self._is_total(row, text):
            self._after_total = True
            return False
        return not (self._is_repeat(row, text) or self._is_note(row, text, filled))

    def _is_repeat(self, row: Row, text: Cell) -> bool:
        if not isinstance(text, str) or len(text) > self._longest_header or plain_words(text) != self._header_name:
            return False
        pairs = [(cell, _cell(self._header, place)) for place, cell in enumerate(row) if cell != ""]
        same = sum(1 for cell, header in pairs if isinstance(cell, str) and plain_words(cell) == plain_words(header))
        return same >= max(1, len(pairs) / 2)

    def _is_total(self, row: Row, text: Cell) -> bool:
        if any(not is_blank(str(_cell(row, place))) and not says_total(_cell(row, place)) for place in self._identity):
            return False
        if isinstance(text, str) and any(map(str.isalpha, text)) and not says_total(text):
            return False
        return any(says_total(cell) for cell in row)

    def _is_note(self, row: Row, text: Cell, filled: int) -> bool:
        words = [cell for cell in row if isinstance(cell, str) and cell]
        if len(words) == filled and all(_RULE.fullmatch(word) and len(word) > 1 for word in words):
            return True
        if filled <= _FEW and self._usual >= _USUAL and (self._after_total or _labelled(words, self._after_blank)):
            return True
        if filled > 1 or self._usual <= _FEW:
            return filled == 1 and isinstance(text, str) and bool(text) and _reads_like_note(text)
        return text == "" or self._after_blank or self._is_heading(str(text))

    def _is_heading(self, text: str) -> bool:
        return _reads_like_note(text) or bool(_HEADING.fullmatch(text)) or (text.isupper() and not self._shouting)


def _usual_cells(rows: Sequence[Row], headers: int) -> float:
    """Cells of a full row: of rows with fewer than half of the headers filled only if there are no others."""
    counts = [count for row in rows if (count := _filled(row))]
    return median([count for count in counts if count >= headers / 2] or counts or [0])


def says_total(cell: Cell) -> bool:
    """True for a cell that labels a total: "Total", "Grand total:", "Total units 182".

    Examples
    --------
    >>> says_total("Sub-total"), says_total("TOTAL UNITS: 182"), says_total("Total gym"), says_total(5)
    (True, True, False, False)
    """
    return isinstance(cell, str) and 0 < len(cell) < 60 and bool(_TOTAL.fullmatch(cell.strip()))


@lru_cache(maxsize=4096)
def _odd(text: str) -> bool:
    """Worth a closer look although the row is filled."""
    return says_total(text) or not any(map(str.isalpha, text)) or bool(_RULE.fullmatch(text))


def _reads_like_note(text: str) -> bool:
    return bool(_NOTE.match(text)) or (len(text) > 100 and text.rstrip().endswith((".", "!")))


def _labelled(words: Iterable[str], after_blank: bool) -> bool:
    return after_blank and any(word.endswith(":") for word in words)


def _filled(row: Row) -> int:
    return len(row) - row.count("")


def _cell(row: Row, place: int) -> Cell:
    return row[place] if place < len(row) else ""


def _without_sums(rows: Sequence[Row], kept: list[int], name: int) -> list[int]:
    """A row of numbers alone that repeats the sum of a column above it is a total that was not called one."""
    wordless = [
        index
        for index in kept
        if not any(_has_letters(cell) for cell in rows[index]) and _cell(rows[index], name) == ""
    ]
    for index in wordless[-_MOST_WORDLESS:]:
        above = [rows[other] for other in kept if other < index]
        if len(above) > 1 and any(_sums_up(above, place, cell) for place, cell in enumerate(rows[index]) if cell != ""):
            kept = [other for other in kept if other != index]
    return kept


def _has_letters(cell: Cell) -> bool:
    return isinstance(cell, str) and any(map(str.isalpha, cell))


def _sums_up(above: Sequence[Row], place: int, cell: Cell) -> bool:
    total = _quick_number(cell)
    numbers = [_quick_number(_cell(row, place)) for row in above]
    return total > 1 and sum(1 for number in numbers if number) > 1 and abs(sum(numbers) - total) < 0.005


def _quick_number(cell: Cell) -> float:
    if isinstance(cell, int | float):
        return float(cell)
    core = bare(cell.strip("$€£ "))[0] if isinstance(cell, str) and len(cell) < 40 else ""
    number = decimal_of(core, comma=False)[0] if core else None
    return 0.0 if number is None else float(number)
