"""What can move a price, beside the thing itself?  Blocks of effects; each block shares one prior spread.

A column of the regression is one level of one block.  Rows are turned into columns here, for the history and for a
manifest alike, so that both read the same words the same way.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields, replace
from functools import cached_property

import numpy as np

from models.estimate.sparse_rows import SparseRows, from_entries, joined_rows
from models.estimate.words import terms_of
from models.values.arrays import CodeArray, FloatArray, IntArray, TextArray, texts
from models.values.categories import top_and_sub

BLOCKS = (
    "base", "condition", "top", "sub", "brand", "brand and sub", "words", "walk", "walk by top", "season",
    "bulk by top", "lot", "week",
)  # fmt: skip
BASE = ("intercept", "slope", "no tag", "bulk", "trend")
STEP_DAYS = 91.0
STEPS = 16
TREND_AHEAD_DAYS = 182.0  # a trend is followed half a year beyond the last sale, no further
_YEAR_DAYS = 365.25
_SLICE_ROWS = 10_000
_GAP = "\x1f"


@dataclass(frozen=True)
class Facts:
    """What the regression sees of each row; arrays of shape (n_rows,)."""

    condition: CodeArray  # index in CONDITIONS, -1 unknown
    top: TextArray  # lower case, "" blank
    sub: TextArray
    brand: TextArray
    title: TextArray
    tag: FloatArray  # ln of the tag the product carries, less the model's centre; 0 without
    no_tag: FloatArray  # 1 where the product has no tag of its own
    bulk: FloatArray  # 1 bought in bulk, 0 single find, 1/3 unknown
    age_days: FloatArray  # before the last known sale; negative ahead of it
    day: FloatArray  # days since 1970, NaN unknown
    purchase: TextArray  # "lot" or "week" and its name, "" for none

    def __len__(self) -> int:
        return len(self.condition)

    @cached_property
    def entries(self) -> tuple["Entries", ...]:
        """Every block's entries; kept, since levels are chosen and columns are made from the same."""
        return tuple(_made_entries(self))

    def take(self, index: IntArray) -> "Facts":
        """The rows at `index`, in its order."""
        return Facts(**{field.name: getattr(self, field.name)[index] for field in fields(self)})

    def part(self, index: IntArray) -> "Facts":
        """The rows at `index`, each once, ascending; what was made of all rows is not made again for them."""
        found = self.take(index)
        if "entries" in vars(self):
            vars(found)["entries"] = tuple(entries.part(index, len(self)) for entries in self.entries)
        return found

    def with_tag(self, tag: FloatArray, no_tag: FloatArray) -> "Facts":
        """The same rows with their tags read."""
        return replace(self, tag=tag, no_tag=no_tag)

    def in_condition(self, condition: CodeArray) -> "Facts":
        """The same rows in these conditions."""
        return replace(self, condition=condition)


@dataclass(frozen=True)
class Entries:
    """One block's entries: `row` has `value` in the level `names[level]`."""

    block: str
    row: IntArray
    level: IntArray
    names: list[str]
    value: FloatArray

    def part(self, index: IntArray, n_rows: int) -> "Entries":
        """Entries of the rows at `index` out of all, each once, ascending."""
        place = np.full(n_rows, -1, dtype=np.int64)
        place[index] = np.arange(len(index))
        row = place[self.row]
        keep = row >= 0
        return Entries(self.block, row[keep], self.level[keep], self.names, self.value[keep])


@dataclass(frozen=True)
class Layout:
    """The columns of one regression."""

    name: TextArray  # (p,) level within its block
    block: IntArray  # (p,) index in BLOCKS

    @property
    def width(self) -> int:
        """Number of columns p."""
        return len(self.name)

    def take(self, index: IntArray) -> "Layout":
        """The columns at `index`, in its order."""
        return Layout(self.name[index], self.block[index])

    def levels(self, block: str) -> list[str]:
        """Levels of one block, in column order."""
        return [str(name) for name in self.name[self.block == BLOCKS.index(block)]]


def kinds(category: TextArray, brand: TextArray) -> tuple[TextArray, TextArray, TextArray]:
    """Top category, sub-category and brand as the regressions spell them.

    Examples
    --------
    >>> [part.tolist() for part in kinds(texts(["Home > Mugs"]), texts([" Acme  Co "]))]
    [['home'], ['mugs'], ['acme co']]
    """
    paths = {text: top_and_sub(text) for text in set(category.tolist())}
    top = texts([paths[text][0] for text in category.tolist()])
    sub = texts([paths[text][1] for text in category.tolist()])
    return top, sub, texts([" ".join(text.lower().split()) for text in brand.tolist()])


def level_columns(layout: Layout, block: str, names: list[str]) -> IntArray:
    """Column of each level name in one block, -1 where the layout does not have it.

    Examples
    --------
    >>> level_columns(Layout(texts(["intercept", "acme"]), np.array([0, 4])), "brand", ["acme", "other"]).tolist()
    [1, -1]
    """
    place = {str(layout.name[at]): int(at) for at in np.flatnonzero(layout.block == BLOCKS.index(block))}
    return np.array([place.get(name, -1) for name in names], dtype=np.int64)


def design(layout: Layout, facts: Facts) -> SparseRows:
    """Columns of each row; levels that the layout does not have are left out.

    Returns
    -------
    SparseRows
        Of shape (n_rows, layout.width), unit free.
    """
    if len(facts) > _SLICE_ROWS:  # entries of all rows at once would take many times the memory of the result
        cuts = range(0, len(facts), _SLICE_ROWS)
        parts = [facts.take(np.arange(first, min(first + _SLICE_ROWS, len(facts)))) for first in cuts]
        return joined_rows([design(layout, part) for part in parts])
    row, column, value = [], [], []
    for entries in all_entries(facts):
        at = level_columns(layout, entries.block, entries.names)[entries.level]
        keep = (at >= 0) & (entries.value != 0)
        row.append(entries.row[keep])
        column.append(at[keep])
        value.append(entries.value[keep])
    return from_entries(np.concatenate(row), np.concatenate(column), np.concatenate(value), (len(facts), layout.width))


def all_entries(facts: Facts) -> Iterable[Entries]:
    """Every block's entries, before levels are chosen; one block at a time where there are many rows."""
    return facts.entries if len(facts) <= _SLICE_ROWS else _made_entries(facts)


def _made_entries(facts: Facts) -> Iterator[Entries]:
    ones = np.ones(len(facts))
    yield _base(facts)
    yield _indicator("condition", texts([str(int(code)) for code in facts.condition]), ones)
    yield _indicator("top", facts.top, ones)
    yield _indicator("sub", facts.sub, ones)
    yield _indicator("brand", facts.brand, ones)
    yield _indicator("brand and sub", joined(facts.brand, facts.sub), ones)
    yield word_entries(facts.title)
    yield from _walks(facts)
    yield _season(facts)
    yield _indicator("bulk by top", facts.top, facts.bulk)
    for block in ("lot", "week"):
        own = texts([name if name.startswith(block + _GAP) else "" for name in facts.purchase.tolist()])
        yield _indicator(block, own, (own != "").astype(np.float64))


def joined(first: TextArray, second: TextArray) -> TextArray:
    """Two texts as one level name.

    Examples
    --------
    >>> joined(texts(["acme"]), texts(["mugs"])).tolist()
    ['acme\\x1fmugs']
    """
    return texts([f"{one}{_GAP}{two}" for one, two in zip(first.tolist(), second.tolist(), strict=True)])


def word_entries(title: TextArray) -> Entries:
    """Words and word pairs, each once a row.

    Examples
    --------
    >>> found = word_entries(texts(["red mug", "mug"]))
    >>> found.row.tolist(), [found.names[at] for at in found.level]
    ([0, 0, 0, 1], ['mug', 'red', 'red mug', 'mug'])
    """
    numbers: dict[str, int] = {}
    of_title: dict[str, IntArray] = {}
    for text in title.tolist():
        if text not in of_title:
            of_title[text] = np.array(
                [numbers.setdefault(term, len(numbers)) for term in terms_of(text)], dtype=np.int64
            )
    own = [of_title[text] for text in title.tolist()]
    level = np.concatenate([*own, np.zeros(0, dtype=np.int64)])
    row = np.repeat(np.arange(len(title)), [len(terms) for terms in own])
    return Entries("words", row, level, list(numbers), np.ones(len(level)))


def coded(values: TextArray) -> tuple[IntArray, list[str]]:
    """A number for each distinct text, in order of appearance.

    Examples
    --------
    >>> code, names = coded(texts(["b", "a", "b"]))
    >>> code.tolist(), names
    ([0, 1, 0], ['b', 'a'])
    """
    numbers: dict[str, int] = {}
    code = np.array([numbers.setdefault(text, len(numbers)) for text in values.tolist()], dtype=np.int64)
    return code, list(numbers)


def _indicator(block: str, key: TextArray, value: FloatArray) -> Entries:
    level, names = coded(key)
    return Entries(block, np.arange(len(key)), level, names, value)


def _base(facts: Facts) -> Entries:
    years = -np.maximum(facts.age_days, -TREND_AHEAD_DAYS) / _YEAR_DAYS
    columns = np.stack([np.ones(len(facts)), facts.tag, facts.no_tag, facts.bulk, years], axis=1)
    level = np.tile(np.arange(len(BASE)), len(facts))
    return Entries("base", np.repeat(np.arange(len(facts)), len(BASE)), level, list(BASE), columns.ravel())


def _walks(facts: Facts) -> Iterator[Entries]:
    """Random walk back from the last sale: step j is passed through between 91 j and 91 (j + 1) days of age."""
    passed = np.clip(facts.age_days[:, None] - STEP_DAYS * np.arange(STEPS), 0, STEP_DAYS) / STEP_DAYS
    row, step = np.nonzero(passed)
    value = passed[row, step]
    yield Entries("walk", row, step, [str(number) for number in range(STEPS)], value)
    code, names = coded(facts.top)
    levels = [f"{number}{_GAP}{name}" for name in names for number in range(STEPS)]
    yield Entries("walk by top", row, code[row] * STEPS + step, levels, value)


def _season(facts: Facts) -> Entries:
    known = np.flatnonzero(~np.isnan(facts.day))
    angle = 2 * np.pi * facts.day[known] / _YEAR_DAYS
    code, names = coded(facts.top)
    levels = [f"{wave}{_GAP}{name}" for name in names for wave in ("sin", "cos")]
    level = np.concatenate([2 * code[known], 2 * code[known] + 1])
    return Entries("season", np.tile(known, 2), level, levels, np.concatenate([np.sin(angle), np.cos(angle)]))
