"""Which rows below a header are data?  Blank rows, repeated headers, totals, headings and notes are not."""

from collections.abc import Iterable, Mapping, Sequence
from enum import Enum
from itertools import compress
from statistics import median_high

from models.intake.cells.said import said_units
from models.intake.cells.wordings import plain_words
from models.intake.grid import Cell, is_blank, plain_text
from models.intake.limits import SAMPLE_ROWS
from models.intake.many import columns_of, mostly_distinct
from models.intake.shape.gone_words import Gone, gone_below, there_below
from models.intake.shape.row_words import (
    is_charge,
    is_heading,
    is_odd,
    is_phrase,
    is_rule,
    may_be_note,
    names_part,
    odd_ones,
    reads_like_note,
)
from models.intake.shape.total_words import labels_sum, says_total

Row = Sequence[Cell]
_FEW, _USUAL = 2, 4  # cells of a label with its value, against a table at least this wide


class RowKind(Enum):
    """What a row below the header is."""

    DATA = "data"
    BLANK = "blank"
    HEADER = "header"
    TOTAL = "total"
    PART = "part"  # the heading of a pallet, box or lot
    NOTE = "note"
    HEADING = "heading if goods follow at once"  # else it may be goods itself, and so with the next two
    FOOTER = "note if no goods follow"
    EITHER = "heading or note by what follows"
    DOUBT = "words alone that may be goods"
    LONE = "words alone that read like goods"
    CHARGE = "cost among the goods"
    WRAPPED = "more words of the row above"
    GONE = "heading of goods that may not be in the lot"


class RowJudge:
    """Knows the table's usual shape; sees its rows in order, since what follows a total is rarely goods."""

    def __init__(self, rows: Sequence[Row], header: range, names: Row, columns: Mapping[str, int], name: str) -> None:
        self._manifest = name == "description"
        self._header = names
        self._header_lines = [rows[index] for index in header]
        self._name = columns[name]
        self._identity = [columns[column] for column in ("brand", "sku", "gtin") if column in columns]
        sample = rows[header.stop : header.stop + SAMPLE_ROWS]
        others = [place for place in columns.values() if place != self._name]
        self._fullest = sorted(others, key=lambda place: sum(_cell(row, place) == "" for row in sample))[:_FEW]
        self._usual = _usual_cells(sample, _filled(self._header))
        goods = [str(cell) for row in sample if _filled(row) > 1 and (cell := _cell(row, self._name)) != ""]
        self._shouting = sum(map(str.isupper, goods)) > 0.3 * len(goods)
        self._header_name = plain_words(_cell(self._header, self._name))
        self._longest_header = len(str(_cell(self._header, self._name))) + 4
        self._header_initial = self._header_name[:1]
        self._header_like: dict[str, bool] = {}
        self._after_total = self._after_blank = False
        self.looked_closer = False  # at the last row: it may be a total or heading in a way its kind does not tell

    def surely_goods(self, rows: Sequence[Row]) -> list[bool]:
        """Which rows `kind` would call data by their name and two other cells, told of all together."""
        texts, *others = columns_of(rows, [self._name, *self._fullest])
        in_header = {_cell(line, self._name) for line in self._header_lines}
        if len(others) < _FEW:
            return [False] * len(rows)
        different = mostly_distinct(texts)
        words = [text for text in different if isinstance(text, str)]
        unsure = set(different).difference(words) if len(words) < len(different) else set()
        unsure |= in_header | odd_ones(words)
        short = compress(words, map(self._longest_header.__ge__, map(len, words)))
        unsure |= {text for text in short if self._is_header_word(text)}
        beside = zip(*others, strict=True)
        return [text not in unsure and "" not in cells for text, cells in zip(texts, beside, strict=True)]

    def see_goods(self) -> None:
        """The next row is goods."""
        self._after_total = self._after_blank = False

    def kind(self, row: Row) -> RowKind:
        """What the next row is; rows must come in their order."""
        filled = len(row) - row.count("")
        text = row[self._name] if self._name < len(row) else ""
        if filled > _FEW and text and type(text) is str and not is_odd(text) and not self._is_repeat(row, text):
            self._after_total = self._after_blank = self.looked_closer = False
            return RowKind.DATA
        self.looked_closer = True
        if not filled:
            self._after_blank = True
            return RowKind.BLANK
        if filled == 1 and self._manifest and (heading := self._heads_gone(row)):
            self._after_total = self._after_blank = False
            return heading
        if self._is_total(row, text):
            self._after_total = True
            return RowKind.TOTAL
        if self._is_part(row, text, filled):
            self._after_total = self._after_blank = False
            return RowKind.PART
        if self._is_repeat(row, text):
            return RowKind.HEADER
        kind = self._words_kind(row, text, filled)
        charge = kind in (RowKind.DATA, RowKind.LONE) and isinstance(text, str) and is_charge(text)
        return RowKind.CHARGE if charge and not self._has_identity(row) else kind

    def _heads_gone(self, row: Row) -> RowKind | None:
        """Words alone about what is in the lot and what is not; in a list of names alone, goods may be called so."""
        [text] = [plain_text(cell) for cell in row if cell != ""]
        said = gone_below(text)
        if said is Gone.SURE or (said is Gone.MAYBE and self._usual > _FEW):
            return RowKind.GONE
        return RowKind.NOTE if there_below(text) else None

    def _has_identity(self, row: Row) -> bool:
        return any(not is_blank(str(_cell(row, place))) for place in self._identity)

    def _is_part(self, row: Row, text: Cell, filled: int) -> bool:
        """Its first words name a part, and it has far fewer cells than goods have."""
        first = next((cell for cell in row if cell != ""), "")
        if not isinstance(first, str) or not names_part(first):
            return False
        if text != "" and text is not first and said_units(str(text)) is None:
            return False
        return filled <= (1 if self._usual <= _FEW else max(_FEW, self._usual / 2))

    def _is_repeat(self, row: Row, text: Cell) -> bool:
        if row in self._header_lines:
            return True
        if not isinstance(text, str) or not self._is_header_word(text):
            return False
        pairs = [(cell, _cell(self._header, place)) for place, cell in enumerate(row) if cell != ""]
        same = sum(1 for cell, header in pairs if isinstance(cell, str) and plain_words(cell) == plain_words(header))
        return same >= max(1, len(pairs) / 2)

    def _is_header_word(self, text: str) -> bool:
        """Whether it reads as the name of the column of goods does."""
        if len(text) > self._longest_header or text[:1].casefold() != self._header_initial:  # reading words is slow
            return False
        if text not in self._header_like:
            self._header_like[text] = plain_words(text) == self._header_name
        return self._header_like[text]

    def _is_total(self, row: Row, text: Cell) -> bool:
        marks = [cell for place in self._identity if not is_blank(str(cell := _cell(row, place)))]
        if not all(says_total(cell) or (text == "" and labels_sum(cell)) for cell in marks):
            return False
        if isinstance(text, str) and any(map(str.isalpha, text)) and not says_total(text):
            return False
        return any(says_total(cell) or (text == "" and labels_sum(cell)) for cell in row)

    def _words_kind(self, row: Row, text: Cell, filled: int) -> RowKind:
        """Goods, or words to the reader."""
        words = [cell for cell in row if isinstance(cell, str) and cell]
        if len(words) == filled and all(is_rule(word) and len(word) > 1 for word in words):
            return RowKind.NOTE
        if filled <= _FEW and self._usual >= _USUAL and (self._after_total or _labelled(words, self._after_blank)):
            return _below_total(words, filled)
        if filled > 1:
            return RowKind.DATA
        if text == "":  # a number or a code alone is a row that lacks its name, unless it turns out to be a sum
            named = any(_cell(row, place) != "" for place in self._identity)
            note = any(reads_like_note(word) or is_heading(word) or (is_phrase(word) and not named) for word in words)
            return RowKind.NOTE if note and self._usual > _FEW else RowKind.DATA
        return self._lone_kind(str(text)) if isinstance(text, str) else RowKind.DATA

    def _lone_kind(self, text: str) -> RowKind:
        """One cell of words where the goods stand."""
        if reads_like_note(text):
            return RowKind.NOTE
        if self._usual <= _FEW:  # names alone are what such a list is made of
            return RowKind.DOUBT if may_be_note(text) and self._usual > 1 else RowKind.DATA
        if is_heading(text):
            return RowKind.NOTE
        if may_be_note(text):
            return RowKind.DOUBT
        if self._after_blank:
            return RowKind.EITHER
        return RowKind.HEADING if text.isupper() and not self._shouting else RowKind.LONE


def _below_total(words: Sequence[str], filled: int) -> RowKind:
    if any(reads_like_note(word) or word.endswith(":") for word in words):
        return RowKind.NOTE
    return RowKind.EITHER if filled == 1 else RowKind.FOOTER


def _usual_cells(rows: Sequence[Row], headers: int) -> float:
    """Cells of a full row: of totals, and of rows that fill fewer than half of the headers, if there are no others."""
    full = [row for row in rows if not any(map(says_total, row))]
    counts = [count for row in full or rows if (count := _filled(row))]
    return median_high([count for count in counts if count >= headers / 2] or counts or [0])


def _labelled(words: Iterable[str], after_blank: bool) -> bool:
    return after_blank and any(word.endswith(":") for word in words)


def _filled(row: Row) -> int:
    return len(row) - row.count("")


def _cell(row: Row, place: int) -> Cell:
    return row[place] if place < len(row) else ""
