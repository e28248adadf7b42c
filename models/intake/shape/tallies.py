"""Which rows left among the goods are sums after all, whatever they are called?  Arithmetic says it in any language.

A sum repeats the units and the money of the rows above it.  Where only one of them agrees, the words must say so too.
"""

import re
from bisect import bisect_left
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from models.intake.columns.glances import quick_number
from models.intake.grid import Cell, is_blank
from models.intake.many import columns_of
from models.intake.shape.row_kinds import Row
from models.intake.shape.tally_words import begins_total, like_total, says_sum
from models.values.arrays import FloatArray, IntArray

LIKE_TOTAL = "named like a total at the end of the goods"
ONE_SUM = "named like a total, and one of its numbers is the sum of the rows above"
UNITS_SUM = "no more than a count, which is the sum of the rows above"
_ENOUGH = 2  # rows above, where the words do not say that it is a sum
_NAME_AND_COUNT = 2  # cells
_MOST_FOUND = 200  # sums told by their numbers alone
_SCANNED = 5_000  # rows; in longer files only rows that end a block are looked at for their numbers alone
_MANY = 0.5  # units a row that a sum counts at least
_CLOSE = 0.011  # major units that a sum of money may be off
_OWN = ("sku", "gtin")
_MONEY = ("tag_each", "tag_line")
_OF_GOODS = (*_OWN, "brand", "condition", "category")
_THOUSANDS = re.compile(r"\d{1,3}(?:\.\d{3})+")


@dataclass
class Tallies:
    """Positions in the grid's rows: sums, those of more than their own block, and rows set aside, each with why."""

    totals: list[int] = field(default_factory=list)
    wholes: set[int] = field(default_factory=set)
    by_numbers: list[int] = field(default_factory=list)  # of the totals: no words say that they are
    doubted: dict[int, str] = field(default_factory=dict)


def find_tallies(
    rows: Sequence[Row],
    goods: Sequence[int],
    marks: Collection[int],
    ends: Collection[int],
    looked: Collection[int],
    columns: Mapping[str, int],
    name: str,
    comma: bool = False,
) -> Tallies:
    """The sums among the rows of goods.

    Parameters
    ----------
    rows : sequence of sequences of Cell
        The sheet.
    goods : sequence of int
        Positions of the rows of goods, rising.
    marks : collection of int
        Positions of totals and headings of parts, after which a sum begins anew.
    ends : collection of int
        Positions of rows that end a block of goods, beside these.
    looked : collection of int
        Positions of goods whose words are worth a look.
    columns : mapping
        {canonical: position of the column}.
    name : str
        The canonical column that names the goods.
    comma : bool
        "1.234" is a thousand.

    Examples
    --------
    >>> rows = [["Mug", "2", "9.00"], ["Jug", "1", "3.00"], ["Alles", "3", "21.00"]]
    >>> find_tallies(rows, [0, 1, 2], [], [], [], {"description": 0, "quantity": 1, "tag_each": 2}, "description")
    Tallies(totals=[2], wholes=set(), by_numbers=[2], doubted={})
    """
    search = _Search(rows, goods, marks, columns, name, comma)
    last = search.ending((*marks, *ends))
    search.walk({*(bisect_left(goods, index) for index in looked), *last}, last)
    return search.found


class _Search:
    """Goes down the goods once; a sum that was found counts as goods no more, and what follows is summed anew."""

    def __init__(
        self,
        rows: Sequence[Row],
        goods: Sequence[int],
        marks: Collection[int],
        columns: Mapping[str, int],
        name: str,
        comma: bool,
    ) -> None:
        self._rows, self._goods, self._columns = rows, goods, columns
        self._name = columns[name]
        self._known = _Numbers(comma)
        self._chosen: Sequence[Row] = ()
        self._last: set[int] = set()
        self._units, self._alive = np.zeros(len(goods)), np.ones(len(goods), dtype=bool)
        self._start = np.array(
            [bisect_left(goods, mark) for mark in sorted(marks)], dtype=np.int64
        )  # positions among the goods where sums begin anew
        self._money, self._priced = (np.zeros(len(goods)), np.zeros(len(goods))), 0
        self._hits = np.zeros(0, dtype=np.int64)
        self.found = Tallies()

    def ending(self, ends: Sequence[int]) -> set[int]:
        """Positions of the last goods before each end, and of the rows named like sums just above them."""
        behind = {len(self._goods), *(bisect_left(self._goods, end) for end in ends)}
        found: set[int] = set()
        for at in behind:
            at -= 1
            while at >= 0 and at not in found:
                found.add(at)
                if not like_total(self._text(at)):
                    break
                at -= 1
        return found

    def walk(self, worded: Collection[int], last: set[int]) -> None:
        """Judge the rows that their words or their units speak for, from the first on."""
        self._last = last
        named = {at for at in worded if at < len(self._goods) and like_total(self._text(at))}
        if not named and len(self._goods) > _SCANNED and not any(map(self._counts_many, last)):
            return
        self._read()
        ahead = sorted(named, reverse=True)
        while ahead or len(self._hits):
            at = min([*ahead[-1:], *self._hits[:1].tolist()])
            self._judge(at, at in last)
            self._hits = self._hits[self._hits > at]
            ahead = ahead[: len(ahead) - (ahead[-1:] == [at])]

    def _counts_many(self, at: int) -> bool:
        """It may count as many units as the rows above it since the last sum."""
        begun = int(self._start[self._start <= at].max(initial=0))
        row, place = self._rows[self._goods[at]], self._columns.get("quantity", 0)
        return self._known[row[place]] >= max(_MANY * (at - begun), _ENOUGH) if place < len(row) else False

    def _read(self) -> None:
        whole = len(self._goods) > 0 and self._goods[-1] - self._goods[0] + 1 == len(self._goods)
        first = self._goods[0] if self._goods else 0
        self._chosen = (
            self._rows[first : first + len(self._goods)] if whole else [self._rows[index] for index in self._goods]
        )
        counts = self._numbers("quantity", 0, len(self._goods))
        self._units = np.where(counts == np.rint(counts), counts, 0.0)
        self._hits = self._by_units()

    def _judge(self, at: int, last: bool) -> None:
        """Take a row for a sum, set it aside, or leave it among the goods."""
        text = self._text(at)
        named, begins = like_total(text), begins_total(text)
        if any(self._filled(at, column) for column in (_OWN if begins else _OF_GOODS)):
            return
        begun = self._start[self._start <= at].max(initial=0)
        for first in dict.fromkeys((int(begun), 0)):
            above = int(self._alive[first:at].sum())
            units, money = self._agree(first, at, named)
            agree = (units and money) or (begins and self._says_no_more(at, units, money))
            enough = _ENOUGH if named or last else _ENOUGH + 1
            if agree and above >= (1 if begins else enough):
                self._total(at, first < begun, says_sum(text))
                return
            if (units or money) and named and above:
                self._aside(at, ONE_SUM)
                return
            if units and last and above >= _ENOUGH and self._only_counts(first, at):
                self._aside(at, UNITS_SUM)
                return
        bare = begins or (says_sum(text) and not self._units[at])
        if last and bare and at and not any(self._filled(at, column) for column in _OF_GOODS):
            self._aside(at, LIKE_TOTAL)

    def _agree(self, first: int, at: int, named: bool) -> tuple[bool, bool]:
        units = float(self._units[at])
        alive = self._alive[first:at]
        same = units > 1 and float(self._units[first:at][alive].sum()) == units
        if not same and not named:
            return False, False
        each, line = self._amounts(at)
        many = np.maximum(self._units[first:at], 1.0)[alive]
        ones, lines = each[first:at][alive], line[first:at][alive]
        of_rows = float((ones * many).sum())
        own_each, own_line = float(each[at]), float(line[at])
        if same and not named and bool((np.abs(ones * units - own_each * many) < _CLOSE).all()):
            return same, False  # all at one price a unit, if these are amounts of lines: goods
        if own_line > 0:
            if own_each > 0 and abs(own_each * units - own_line) < _CLOSE * max(units, 1.0) and not named:
                return same, False  # units x its own tag: goods
            return same, _near(own_line, float(lines.sum())) or _near(own_line, of_rows)
        return same, own_each > 0 and (_near(own_each, of_rows) or _near(own_each, float(ones.sum())))

    def _only_counts(self, first: int, at: int) -> bool:
        """It has no cell but its name and its count, where all rows above have money."""
        each, line = self._amounts(at)
        priced = (each[first:at] + line[first:at])[self._alive[first:at]] > 0
        return bool(priced.all()) and len(self._chosen[at]) - self._chosen[at].count("") == _NAME_AND_COUNT

    def _says_no_more(self, at: int, units: bool, money: bool) -> bool:
        """One of its numbers agrees, and it has no other."""
        own = self._amounts(at)
        return (units and not own[0][at] and not own[1][at]) or (money and not self._units[at])

    def _total(self, at: int, whole: bool, named: bool) -> None:
        self.found.totals.append(self._goods[at])
        if whole:
            self.found.wholes.add(self._goods[at])
        if not named:
            self.found.by_numbers.append(self._goods[at])
        self._start = np.sort(np.append(self._start, at + 1))
        self._gone(at)

    def _aside(self, at: int, why: str) -> None:
        self.found.doubted[self._goods[at]] = why
        self._gone(at)

    def _gone(self, at: int) -> None:
        self._alive[at] = False
        self._units[at] = 0.0
        if len(self.found.totals) <= _MOST_FOUND:
            self._hits = (hits := self._by_units())[hits > at]

    def _by_units(self) -> IntArray:
        """Rows that count as many units as those above them, since the last sum or of all."""
        before = np.cumsum(self._units) - self._units
        begun = np.concatenate(([0], self._start[self._start < len(before)])).astype(np.int64)
        carried = np.repeat(before[begun], np.diff([*begun, len(before)])) if len(before) else before
        same = (self._units == before - carried) | (self._units == before)
        hits = np.flatnonzero(same & (self._units > 1)).astype(np.int64)
        return hits if len(before) <= _SCANNED else hits[np.isin(hits, sorted(self._last))]

    def _amounts(self, at: int) -> tuple[FloatArray, FloatArray]:
        """Tags of one unit, and of lines, down to a row: few files have to be read to their end for it."""
        first, last = self._priced, max(at + 1, min(2 * self._priced, len(self._goods)))
        if at >= first:
            for column, money in zip(_MONEY, self._money, strict=True):
                money[first:last] = self._numbers(column, first, last)
            self._priced = last
        return self._money

    def _numbers(self, column: str, first: int, last: int) -> FloatArray:
        if column not in self._columns:
            return np.zeros(last - first)
        [cells] = columns_of(self._chosen[first:last], [self._columns[column]])
        return np.fromiter(map(self._known.__getitem__, cells), np.float64, last - first)

    def _text(self, at: int) -> str:
        row = self._rows[self._goods[at]]
        return str(row[self._name]) if self._name < len(row) else ""

    def _filled(self, at: int, column: str) -> bool:
        row, place = self._chosen[at], self._columns.get(column)
        return place is not None and place < len(row) and not is_blank(str(row[place]))


class _Numbers(dict[Cell, float]):
    """What each different cell says, read once; 0 where it is no number."""

    def __init__(self, comma: bool) -> None:
        super().__init__()
        self._comma = comma

    def __missing__(self, cell: Cell) -> float:
        if self._comma and isinstance(cell, str) and _THOUSANDS.fullmatch(cell):
            number = float(cell.replace(".", ""))
        else:
            number = quick_number(cell) or 0.0
        self[cell] = number
        return number


def _near(one: float, other: float) -> bool:
    return abs(one - other) < _CLOSE
