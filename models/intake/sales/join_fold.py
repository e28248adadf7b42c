"""Which rows of several files are one sale, or one listing?  Files are taken in order, the surest marks first."""

from collections import Counter, defaultdict
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass

from models.intake.sales.join_orders import Orders
from models.intake.sales.join_pool import BLANK_DAY, Groups, Pool

_EXACT = 7  # `Pool.likeness` of rows that share all
_Index = dict[Hashable, dict[int, None]]  # groups by key, each once, in the order they came


@dataclass(frozen=True)
class Tier:
    """One way to meet: rows with the same key, if they fit; `lone` only where either side has just one such row."""

    key: Callable[[Pool, int], Hashable | None]
    fits: Callable[[Pool, int, int], bool]
    lone: bool = False


def fold(pool: Pool, rows: Sequence[int], tiers: Sequence[Tier]) -> Groups:
    """Rows that are the same, across files; the rows of one file are never the same as one another."""
    by_part: dict[int, list[int]] = defaultdict(list)
    for row in rows:
        by_part[pool.of[row]].append(row)
    groups: Groups = []
    indexes: list[_Index] = [defaultdict(dict) for _ in tiers]
    for number, part in enumerate(sorted(by_part)):
        waiting = by_part[part]
        home: dict[int, int] = {}  # row -> its group
        if groups:
            taken: set[int] = set()
            for tier, index in zip(tiers, indexes, strict=True):
                waiting = _meet(pool, waiting, tier, index, groups, taken, home)
        for row in waiting:
            home[row] = len(groups)
            groups.append([])
        for row in by_part[part]:
            groups[home[row]].append(row)
        if number < len(by_part) - 1:
            _learn(pool, by_part[part], home, tiers, indexes)
    return groups


def _meet(
    pool: Pool,
    waiting: Sequence[int],
    tier: Tier,
    index: _Index,
    groups: Groups,
    taken: set[int],
    home: dict[int, int],
) -> list[int]:
    """Find a group for each waiting row; those that found none."""
    left: list[int] = []
    keys = [tier.key(pool, row) for row in waiting]
    times = Counter(keys) if tier.lone else Counter()
    free: dict[Hashable, list[int]] = {}
    for row, key in zip(waiting, keys, strict=True):
        if key not in free:
            free[key] = [] if key is None else [group for group in index.get(key, ()) if group not in taken]
        known = [] if tier.lone and (times[key] > 1 or len(free[key]) > 1) else free[key]
        best = _best(pool, row, tier, known, groups, taken)
        if best is None:
            left.append(row)
        else:
            taken.add(best)
            free[key].remove(best)
            home[row] = best
    return left


def _best(pool: Pool, row: int, tier: Tier, known: Sequence[int], groups: Groups, taken: set[int]) -> int | None:
    found, most = None, -1
    for group in known:
        other = groups[group][-1]
        if group in taken or not tier.fits(pool, other, row):
            continue
        likeness = pool.likeness(other, row)
        if likeness > most:
            found, most = group, likeness
        if likeness == _EXACT:
            break
    return found


def _learn(
    pool: Pool,
    rows: Sequence[int],
    home: dict[int, int],
    tiers: Sequence[Tier],
    indexes: Sequence[_Index],
) -> None:
    for tier, index in zip(tiers, indexes, strict=True):
        for row in rows:
            key = tier.key(pool, row)
            if key is not None:
                index[key][home[row]] = None


def _when(told: object, *key: Hashable) -> Hashable | None:
    return key if told else None


def _no_two_orders(pool: Pool, one: int, other: int) -> bool:
    """The same listing: one sale if at most one file names its order and the days agree."""
    days = pool.sold_on[one], pool.sold_on[other]
    same_day = days[0] == days[1] or BLANK_DAY in days
    return same_day and not (pool.order[one] and pool.order[other])


def _same_text(pool: Pool, one: int, other: int) -> bool:
    counts = pool.quantity[one], pool.quantity[other]
    same_count = counts[0] == counts[1] or 0 in counts
    return same_count and not pool.differ(one, other) and not pool.listed_apart(one, other)


def _same_listing(pool: Pool, one: int, other: int) -> bool:
    return not pool.differ(one, other) and not pool.listed_apart(one, other)


def _any(pool: Pool, one: int, other: int) -> bool:
    return True


def all_marks(pool: Pool, row: int) -> Hashable:
    """All that tells a row from another; equal rows of two files are one."""
    own = pool.title[row], pool.condition[row], pool.quantity[row], pool.price[row]
    days = pool.sold_on[row], pool.listed_on[row]
    return (*own, *days, pool.order[row], pool.listing[row], pool.sku[row], pool.gtin[row], pool.place[row])


def _line(pool: Pool, row: int) -> Hashable | None:
    """A line of an order, with its day: what it says beside these, such as condition and SKU, may be put right."""
    told = pool.order[row] and pool.title[row] and pool.sold_on[row] != BLANK_DAY
    return _when(told, pool.order[row], pool.title[row], pool.sold_on[row])


def sale_tiers(orders: Orders) -> tuple[Tier, ...]:
    """How sales meet: what carries an order number must not be another sale under the same number."""

    def same(pool: Pool, one: int, other: int) -> bool:
        return orders.same(one, other)

    def alike(pool: Pool, one: int, other: int) -> bool:
        return not pool.differ(one, other) and orders.same(one, other)

    def corrected(pool: Pool, one: int, other: int) -> bool:
        return not (orders.apart(one, other) or pool.differ_in(("listing", "place"), one, other))

    return (
        Tier(all_marks, _any),
        Tier(lambda p, r: _when(p.order[r] and p.listing[r], p.order[r], p.listing[r]), same),
        Tier(lambda p, r: _when(p.order[r] and p.sku[r], p.order[r], p.sku[r]), alike),
        Tier(lambda p, r: _when(p.order[r] and p.title[r], p.order[r], p.title[r]), alike),
        Tier(_line, corrected, lone=True),
        Tier(lambda p, r: _when(p.order[r], p.order[r]), same, lone=True),
        *_WITHOUT_ORDERS,
    )


_WITHOUT_ORDERS: tuple[Tier, ...] = (
    Tier(lambda p, r: _when(p.listing[r], p.listing[r]), _no_two_orders),
    Tier(
        lambda p, r: _when(p.title[r] and p.sold_on[r] != BLANK_DAY, p.title[r], p.sold_on[r], p.price[r]),
        _same_text,
    ),
    # Without any reference a later price is a correction if title, SKU and both days are the same.
    Tier(
        lambda p, r: _when(
            not p.order[r] and not p.listing[r] and BLANK_DAY not in (p.sold_on[r], p.listed_on[r]),
            p.title[r], p.sku[r], p.sold_on[r], p.listed_on[r],
        ),
        _same_text,
    ),
)  # fmt: skip
LISTING_TIERS: tuple[Tier, ...] = (
    Tier(all_marks, _any),
    Tier(lambda p, r: _when(p.listing[r] and p.title[r], p.listing[r], p.title[r]), _any),
    Tier(lambda p, r: _when(p.listing[r], p.listing[r]), _any, lone=True),
    Tier(lambda p, r: _when(p.sku[r], p.sku[r], p.title[r]), _same_listing),
    Tier(lambda p, r: _when(p.title[r], p.title[r]), _same_listing),
)
