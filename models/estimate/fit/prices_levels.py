"""Which levels get a column of their own?  Enough to learn from, few enough to solve; the rest counts as never seen."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from models.estimate.blocks import BLOCKS, STEP_DAYS, Entries, Facts, Layout, all_entries
from models.values.arrays import texts

SEASON_DAYS = 400.0


@dataclass(frozen=True)
class Limit:
    """A level needs so many rows; the most frequent so many levels are kept."""

    rows: int
    levels: int


# More levels than these would make the dense solve the cost of everything; rarer ones are mostly single sales.
_LIMITS: Mapping[str, Limit] = MappingProxyType({
    "condition": Limit(1, 10), "top": Limit(1, 200), "sub": Limit(1, 400), "brand": Limit(1, 1000),
    "brand and sub": Limit(3, 600), "words": Limit(2, 800), "walk": Limit(1, 16), "walk by top": Limit(1, 320),
    "season": Limit(20, 40), "bulk by top": Limit(1, 40), "lot": Limit(1, 400), "week": Limit(2, 400),
})  # fmt: skip
TAG_BLOCKS = frozenset({"top", "sub", "brand", "brand and sub", "words"})
PRICE_BLOCKS = frozenset(BLOCKS) - {"base"}


def chosen(facts: Facts, blocks: frozenset[str], base: tuple[str, ...]) -> Layout:
    """Columns for these rows: the base columns named, then every level of the blocks that is frequent enough."""
    names, numbers = list(base), [0] * len(base)
    for entries in all_entries(facts):
        if entries.block in blocks and not _dropped(entries.block, facts):
            levels = _frequent(entries, _LIMITS[entries.block], float(facts.age_days.max(initial=0.0)))
            names += levels
            numbers += [BLOCKS.index(entries.block)] * len(levels)
    return Layout(texts(names), np.array(numbers, dtype=np.int64))


def price_base(facts: Facts) -> tuple[str, ...]:
    """Base columns of the price regression that these rows can tell anything about."""
    names = ["intercept", "bulk"]
    names += ["slope"] if np.any(facts.tag != 0) else []
    names += ["no tag"] if 0 < float(facts.no_tag.mean()) < 1 else []
    names += ["trend"] if float(facts.age_days.max()) > SEASON_DAYS else []
    return tuple(names)


def _never_named(block: str, facts: Facts) -> bool:
    """A history that never names a brand (a kind, a condition) cannot tell it from the intercept: no such effects."""
    no_sub, no_brand = not np.any(facts.sub != ""), not np.any(facts.brand != "")
    blank = {"top": no_sub, "sub": no_sub, "brand": no_brand, "brand and sub": no_sub or no_brand}
    blank["condition"] = not np.any(facts.condition >= 0)
    return bool(blank.get(block, False))


def _dropped(block: str, facts: Facts) -> bool:
    if _never_named(block, facts):
        return True
    if block == "top":  # one level of category: the sub-category says it all
        return bool(np.all(facts.top == facts.sub))
    if block == "season":
        return float(facts.age_days.max()) <= SEASON_DAYS
    if block == "bulk by top":
        return not (np.any(facts.bulk == 0) and np.any(facts.bulk == 1))
    return block == "walk by top" and len(set(facts.top.tolist())) < 2


def _frequent(entries: Entries, limit: Limit, span_days: float) -> list[str]:
    used = entries.value != 0
    count = np.bincount(entries.level[used], minlength=len(entries.names))
    if entries.block.startswith("walk"):
        steps = max(1, int(span_days // STEP_DAYS))  # a step that is hardly entered is noise
        count = np.where([int(name.split("\x1f")[0]) < steps for name in entries.names], count, 0)
    order = sorted(np.flatnonzero(count >= limit.rows), key=lambda at: (-count[at], entries.names[at]))
    return sorted(entries.names[at] for at in order[: limit.levels])
