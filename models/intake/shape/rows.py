"""The rows below a header, sorted: goods, totals, headings of parts, notes, blank rows and repeated headers."""

import itertools
from bisect import insort
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from operator import and_

from models.intake.cells.conditions import says_condition_alone
from models.intake.grid import Cell, Grid, row_text
from models.intake.shape.gone_sections import Section, gone_sections
from models.intake.shape.groups import group_heads
from models.intake.shape.relaid import Layouts
from models.intake.shape.row_kinds import Row, RowJudge, RowKind
from models.intake.shape.row_words import reads_like_note
from models.intake.shape.sums import (
    count_of_rows,
    without_named_sums,
    without_summed_headings,
    without_wordless_sums,
)
from models.intake.shape.tallies import Tallies, find_tallies
from models.intake.shape.tally_words import like_total
from models.intake.shape.total_proofs import goods_called_totals
from models.intake.shape.words_alone import no_goods_alone

_OF_DATA = (RowKind.DATA, RowKind.DOUBT, RowKind.WRAPPED, RowKind.CHARGE)
_UNSETTLED = (RowKind.HEADING, RowKind.FOOTER, RowKind.EITHER)
_LONGEST_STATE = 30  # characters of "Tested working items"; reading words is slow
_FEWEST_WRAPPED, _MOSTLY_WRAPPED = 3, 0.6  # rows, and their share of the full rows; common practice, no source


@dataclass(frozen=True)
class SortedRows:
    """Positions in the grid's rows, each in order."""

    data: tuple[int, ...]
    totals: tuple[int, ...]
    parts: tuple[int, ...]
    notes: tuple[int, ...]
    relaid: tuple[int, ...] = ()  # headers that changed the order of the columns
    doubted: tuple[int, ...] = ()  # of the data: words alone that may be goods or a note
    wrapped: tuple[int, ...] = ()  # of the data: more words of the row above
    charges: tuple[int, ...] = ()  # of the data: costs, no goods
    headers: tuple[int, ...] = ()  # repeated below the first
    blank: tuple[int, ...] = ()
    wholes: frozenset[int] = frozenset()  # of the totals: their numbers sum the whole file
    by_numbers: tuple[int, ...] = ()  # of the totals: no words say that they are
    like_totals: Mapping[int, str] = field(default_factory=dict)  # of the data: set aside, and why
    sections: tuple[Section, ...] = ()  # below words that say they are not in the lot

    @property
    def not_there(self) -> frozenset[int]:
        """Of the data: goods that are not in the lot."""
        return frozenset(index for one in self.sections if one.gone for index in one.rows)


def sort_rows(
    grid: Grid,
    header: range,
    names: Row,
    columns: Mapping[str, int],
    name: str,
    reads_as: Callable[[Cell], str | None] = lambda _: None,
) -> SortedRows:
    """Say what each row below the header is; rows under a header that orders its columns anew are put in order.

    Parameters
    ----------
    grid : Grid
        One sheet.
    header : range
        Positions of the header's rows.
    names : sequence of Cell
        The headers as they read.
    columns : mapping
        {canonical: position of the column}.
    name : str
        The canonical column that names the goods.
    reads_as : callable
        The canonical column that a header names, None if it names none.

    Examples
    --------
    >>> rows = [["Description", "Qty", "SKU"], ["Pallet 1", "", ""], ["Mug", "2", "a"], ["", "", ""],
    ...         ["Description", "Qty", "SKU"], ["Jug", "1", "b"], ["Total", "3", ""], ["All sales final", "", ""]]
    >>> columns = {"description": 0, "quantity": 1, "sku": 2}
    >>> done = sort_rows(Grid("", rows, 1), range(1), rows[0], columns, "description")
    >>> done.data, done.totals, done.parts, done.notes, done.headers, done.blank
    ((2, 5), (6,), (1,), (7,), (4,), (3,))
    """
    judge = RowJudge(grid.rows, header, names, columns, name)
    layouts = Layouts(names, columns, reads_as)
    below = grid.rows[header.stop :]
    at_sight = list(map(and_, judge.surely_goods(below), layouts.surely_no_headers(below)))
    kinds, closer = _looked_at(grid.rows, header.stop, _to_look_at(at_sight, layouts), judge, layouts)
    found = _settled(range(header.stop, len(grid.rows)), kinds)
    _take_back(grid.rows, found, columns, name)
    if name == "description":
        _set_words_aside(grid.rows, found, kinds, columns)
    sections = _sections(grid, found, columns)
    apart = [index for one in sections if one.gone for index in one.rows]
    goods = sorted(set(found[RowKind.DATA]).difference(apart)) if apart else found[RowKind.DATA]
    marks = [*found[RowKind.PART], *found[RowKind.TOTAL]]
    looked = sorted(closer.intersection(goods))
    kept, named = without_named_sums(grid.rows, goods, looked, marks, columns[name])
    kept, heads = without_summed_headings(grid.rows, kept, looked, [*marks, *named], columns, columns[name])
    data, sums = without_wordless_sums(grid.rows, kept, looked, columns[name])
    marks += [*named, *heads, *sums]
    tallies = _tallies(grid, found, data, marks, [index for index in looked if index not in marks], columns, name)
    counts = count_of_rows(grid.rows, data, columns[name]) if name != "description" else []
    gone = {*tallies.totals, *counts}
    data = [index for index in data if index not in gone] if gone else data
    headed = {one.heading for one in sections}
    return SortedRows(
        tuple(sorted([*data, *apart]) if apart else data),
        tuple(sorted(found[RowKind.TOTAL] + named + sums + tallies.totals)),
        tuple(sorted(found[RowKind.PART] + heads)),
        tuple(sorted([*found[RowKind.NOTE], *counts, *(head for head in found[RowKind.GONE] if head not in headed)])),
        tuple(layouts.relaid),
        tuple(found[RowKind.DOUBT]),
        tuple(found[RowKind.WRAPPED]),
        tuple(found[RowKind.CHARGE]),
        tuple(found[RowKind.HEADER]),
        tuple(found[RowKind.BLANK]),
        frozenset(tallies.wholes),
        tuple(tallies.by_numbers),
        tallies.doubted,
        sections,
    )


def _looked_at(
    rows: list[list[Cell]], start: int, places: Iterator[int], judge: RowJudge, layouts: Layouts
) -> tuple[dict[int, RowKind], set[int]]:
    """What the rows are that are no goods at first sight, and those that words alone do not tell."""
    kinds: dict[int, RowKind] = {}
    closer: set[int] = set()
    for index in map(start.__add__, places):
        if index > start and index - 1 not in kinds:
            judge.see_goods()
        if layouts.is_header(index, rows[index]):
            kinds[index] = RowKind.HEADER
            continue
        row = rows[index] = layouts.in_order(rows[index])
        kinds[index] = judge.kind(row)
        if judge.looked_closer:
            closer.add(index)
    return kinds, closer


def _take_back(rows: Sequence[Row], found: dict[RowKind, list[int]], columns: Mapping[str, int], name: str) -> None:
    """Sort anew what a manifest's numbers tell: goods called like totals, and sums above their goods."""
    if name != "description":
        return
    for index in goods_called_totals(rows, found[RowKind.DATA], found[RowKind.TOTAL], columns, columns[name]):
        found[RowKind.TOTAL].remove(index)
        insort(found[RowKind.DATA], index)
    if heads := set(group_heads(rows, found[RowKind.DATA], found[RowKind.TOTAL], columns)):
        found[RowKind.DATA] = [index for index in found[RowKind.DATA] if index not in heads]
        found[RowKind.NOTE] = sorted(heads.union(found[RowKind.NOTE]))


def _set_words_aside(
    rows: Sequence[Row], found: dict[RowKind, list[int]], kinds: Mapping[int, RowKind], columns: Mapping[str, int]
) -> None:
    """Doubt a manifest's words alone where its goods tell more; a state alone heads the goods below it."""
    alone = {index for index, kind in kinds.items() if kind is RowKind.LONE}.difference(found[RowKind.WRAPPED])
    texts = {index: row_text(rows[index]) for index in sorted(alone)}
    lone = [index for index, text in texts.items() if not like_total(text)]
    if not no_goods_alone(rows, lone, found[RowKind.DATA], columns):
        return
    heads = {index for index in lone if len(texts[index]) <= _LONGEST_STATE and says_condition_alone(texts[index])}
    found[RowKind.NOTE] = sorted(heads.union(found[RowKind.NOTE]))
    found[RowKind.DOUBT] = sorted([*found[RowKind.DOUBT], *(index for index in lone if index not in heads)])
    found[RowKind.DATA] = [index for index in found[RowKind.DATA] if index not in heads]


def _sections(grid: Grid, found: Mapping[RowKind, list[int]], columns: Mapping[str, int]) -> tuple[Section, ...]:
    """Goods below words that say they are not in the lot; other headings end them, notes to the reader do not."""
    if not found[RowKind.GONE]:
        return ()
    data = found[RowKind.DATA]
    below = set(data)
    notes = [index for index in found[RowKind.NOTE] if index + 1 in below]
    ends = [*found[RowKind.PART], *(index for index in notes if not reads_like_note(row_text(grid.rows[index])))]
    return gone_sections(grid, found[RowKind.GONE], data, ends, found[RowKind.TOTAL], columns)


def _tallies(
    grid: Grid,
    found: Mapping[RowKind, list[int]],
    data: Sequence[int],
    marks: Sequence[int],
    looked: Sequence[int],
    columns: Mapping[str, int],
    name: str,
) -> Tallies:
    """Sums that are left among a manifest's goods."""
    if name != "description":
        return Tallies()
    aside = {index for kind in (RowKind.DOUBT, RowKind.WRAPPED, RowKind.CHARGE) for index in found[kind]}
    goods = [index for index in data if index not in aside] if aside else data
    ends = [*found[RowKind.BLANK], *found[RowKind.HEADER], *found[RowKind.NOTE], *found[RowKind.GONE], *aside]
    return find_tallies(grid.rows, goods, marks, ends, looked, columns, name, grid.decimal_comma_likely)


def _to_look_at(at_sight: Sequence[bool], layouts: Layouts) -> Iterator[int]:
    """Places of the rows that are not goods at first sight, and of all while the columns stand in another order."""
    flags, place = bytes(at_sight), 0
    while 0 <= (place := place if layouts.changed else flags.find(False, place)) < len(flags):
        yield place
        place += 1


def _settled(rows: range, kinds: Mapping[int, RowKind]) -> dict[RowKind, list[int]]:
    """Rows by kind, each in order; what words alone are is told by the rows around them.  Doubted rows are data too.

    Rows of which `kinds` says nothing are data.
    """
    others: dict[int, RowKind] = {index: kind for index, kind in kinds.items() if kind is not RowKind.DATA}
    data = [index for index in rows if index not in others]
    goods = {*data, *(index for index, kind in others.items() if kind is RowKind.LONE)} if others else set()
    last, wrapped = max(goods, default=-1), _wrapped(data, others)
    found: dict[RowKind, list[int]] = {kind: [] for kind in RowKind} | {RowKind.DATA: data}
    for index, kind in others.items():
        if kind in _UNSETTLED:
            heads = kind is not RowKind.FOOTER and index + 1 in goods
            ends = kind is not RowKind.HEADING and index > last
            kind = RowKind.NOTE if heads or ends else RowKind.DOUBT
        elif kind is RowKind.LONE:
            kind = RowKind.WRAPPED if index in wrapped else RowKind.DATA
        found[kind].append(index)
    found[RowKind.DATA] = sorted(itertools.chain(*(found[kind] for kind in _OF_DATA)))
    return found


def _wrapped(data: Sequence[int], others: Mapping[int, RowKind]) -> set[int]:
    """Words alone that go on what the row above began: so in files where most full rows have such a row below."""
    lone = [index for index, kind in others.items() if kind is RowKind.LONE]
    full = set(data) if lone else set()
    below = {index for index in lone if index - 1 in full}
    return below if len(below) >= max(_FEWEST_WRAPPED, _MOSTLY_WRAPPED * len(full)) else set()
