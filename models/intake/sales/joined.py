"""Several files of sold history -> one table.  Orders, listings and fee statements meet on listing, SKU and title.

A sale or a listing that several files hold is one row; what a later file says wins, what it leaves blank stands.  All
parts are folded in the order they came, so files that come in one by one end in the same table as together.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from models.intake.sales.join_attached import attach
from models.intake.sales.join_fold import LISTING_TIERS, fold, sale_tiers
from models.intake.sales.join_listings import absorb, relisted
from models.intake.sales.join_merge import earliest, is_blank
from models.intake.sales.join_orders import Orders, shared_numbers
from models.intake.sales.join_pool import Groups, Pool
from models.intake.sales.join_table import Folded, beside, folded
from models.intake.sales.join_void import without_void
from models.values.arrays import CodeArray, IntArray
from models.values.problems import Caution
from models.values.sale_parts import COUNTED, ENDINGS, LISTED, LISTINGS, SOLD, SalePart
from models.values.sales import Sales

# What a listing tells of the sale it became; the rest is the sale's own.
_OF_LISTING = (
    "title", "brand", "category", "condition", "tag_each", "asking_price", "cost", "listing_minutes", "sku", "gtin",
    "lot", "source", "sourced", "place", "listing_ref",
)  # fmt: skip


@dataclass(frozen=True)
class Joined:
    """The table; each row with the part and the piece it came from first, and what could not be joined."""

    sales: Sales
    part: IntArray
    piece: CodeArray
    cautions: tuple[Caution, ...]


def join_history(parts: Sequence[SalePart]) -> Joined:
    """One table of all parts, in the order of parts and rows.

    Parameters
    ----------
    parts : sequence of SalePart
        In the order their files came: later ones correct earlier ones.

    Returns
    -------
    Joined
        Money [minor units] and minutes a unit.

    Examples
    --------
    >>> from models.values.arrays import texts
    >>> price, day = np.array([800.0]), np.array(["2026-05-02"], dtype="datetime64[D]")
    >>> listed = replace(Sales.blank(1), title=texts(["Mug"]), listing_ref=texts(["L1"]), listed_on=day - 60)
    >>> sold = replace(listed, sold_price=price, sold_on=day, listed_on=np.array(["NaT"], dtype="datetime64[D]"))
    >>> done = join_history([SalePart.plain(listed), SalePart.plain(sold)]).sales
    >>> len(done), done.sold_price.tolist(), done.listed_on.astype(str).tolist()
    (1, [800.0], ['2026-03-03'])
    """
    filled = [place for place, part in enumerate(parts) if len(part)]
    if len(filled) <= 1 and not any(_needs_joining(parts[place]) for place in filled):
        part = parts[filled[0]] if filled else SalePart.plain(Sales.blank(0))
        return Joined(_counted(part.sales), np.full(len(part), sum(filled), dtype=np.int64), part.piece, ())
    pool = Pool(parts)
    orders = Orders(pool)
    groups = fold(pool, pool.rows([SOLD]), sale_tiers(orders))
    sold, revived = without_void(pool, folded(pool, groups), orders)
    attached = attach(pool, sold, orders)
    listings = _by_snapshot(pool, fold(pool, pool.rows(LISTINGS), LISTING_TIERS))
    sold, listed, retitled = _settled(pool, attached.sold, _still_ended(pool, folded(pool, listings)))
    counted = _not_told_singly(pool, sold, folded(pool, fold(pool, pool.rows([COUNTED]), LISTING_TIERS)))
    return _in_order(
        pool,
        (sold, counted, listed),
        (*shared_numbers(pool, groups), *revived, *attached.cautions, *_retitled(retitled)),
    )


def _still_ended(pool: Pool, listed: Folded) -> Folded:
    """What the latest file tells as running has not ended, whatever an earlier one said."""
    ended = np.array([pool.roles[group[-1]] in ENDINGS for group in listed.groups], dtype=bool)
    days = np.where(ended, listed.sales.ended_on, np.datetime64("NaT", "D"))
    return replace(listed, sales=replace(listed.sales, ended_on=days))


def _needs_joining(part: SalePart) -> bool:
    return bool(np.isin(part.role, (SOLD, LISTED), invert=True).any())


def _counted(sales: Sales) -> Sales:
    """Rows without a count are one unit each."""
    return replace(sales, quantity=np.maximum(sales.quantity, 1))


def _by_snapshot(pool: Pool, groups: Groups) -> Groups:
    """What is left of a listing is told by the file that knows the latest day, whenever it came."""
    return [sorted(group, key=lambda row: (pool.as_of[pool.of[row]], row)) for group in groups]


def _retitled(sales: int) -> tuple[Caution, ...]:
    if not sales:
        return ()
    what = f"Sales that met their listing by SKU alone, since its title has other words: {sales}."
    return (Caution(what, "See that you never gave such a SKU to other goods."),)


def _settled(pool: Pool, sold: Folded, listed: Folded) -> tuple[Folded, Folded, int]:
    """Sales that know their listing, the listings that are left, and how many sales met theirs by SKU alone."""
    done = absorb(pool, sold, listed)
    sold = replace(sold, sales=_with_listing(sold.sales, listed.sales, done.listing_of))
    quantity = np.where(done.left > 0, done.left, 0)
    kept = np.flatnonzero(quantity > 0).tolist()
    left = replace(listed, sales=replace(listed.sales, quantity=quantity)).take(kept)
    return *_relisted(pool, sold, left), done.retitled


def _relisted(pool: Pool, sold: Folded, listed: Folded) -> tuple[Folded, Folded]:
    """A relisted unit keeps its first listing date; what was listed again is no listing of its own any more."""
    both = beside(sold, listed)
    ended = [len(sold) + place for place, group in enumerate(listed.groups) if pool.roles[group[-1]] in ENDINGS]
    pairs = relisted(pool, both, ended) if ended else []
    if not pairs:
        return sold, listed
    first, begun = both.sales.first_listed_on.copy(), both.sales.listed_on
    for before, after in pairs:  # the earliest first: a unit listed three times keeps its very first day
        first[after] = earliest(first[after], earliest(first[before], begun[before]))
    both = replace(both, sales=replace(both.sales, first_listed_on=first))
    gone = {before for before, _ in pairs}
    kept = [place for place in range(len(sold), len(both)) if place not in gone]
    return both.take(list(range(len(sold)))), both.take(kept)


def _with_listing(sold: Sales, listed: Sales, listing_of: dict[int, int]) -> Sales:
    if not listing_of:
        return sold
    at, of = (np.array(places, dtype=np.int64) for places in zip(*listing_of.items(), strict=True))
    columns = {}
    for name in _OF_LISTING:
        column, told = getattr(sold, name).copy(), getattr(listed, name)[of]
        blank = is_blank(column[at]) & ~is_blank(told)
        column[at[blank]] = told[blank]
        columns[name] = column
    return replace(sold, **columns, **_listing_days(sold, listed, at, of))


def _listing_days(sold: Sales, listed: Sales, at: IntArray, of: IntArray) -> dict[str, np.ndarray]:
    """A listing that began after the sale is the unit's next one and tells nothing of this."""
    day, first = sold.listed_on.copy(), sold.first_listed_on.copy()
    fits = ~(listed.listed_on[of] > sold.sold_on[at])
    at, of = at[fits], of[fits]
    begun = earliest(listed.first_listed_on[of], listed.listed_on[of])
    day[at] = np.where(np.isnat(day[at]), listed.listed_on[of], day[at])
    first[at] = np.where(begun < day[at], earliest(first[at], begun), first[at])
    return {"listed_on": day, "first_listed_on": first}


def _not_told_singly(pool: Pool, sold: Folded, counted: Folded) -> Folded:
    """Sold units that a listing counts, less those whose orders are in another file."""
    numbers, words = sold.by_listing(pool), sold.by(lambda row: (pool.sku[row], pool.title[row]))
    left = []
    for place, group in enumerate(counted.groups):
        row = group[-1]
        sales = numbers.get(pool.listing[row], []) or words.get((pool.sku[row], pool.title[row]), [])
        units = sum(max(int(sold.sales.quantity[sale]), 1) for sale in sales)
        left.append(int(counted.sales.quantity[place]) - units)
    quantity = np.array(left, dtype=np.int64)
    kept = np.flatnonzero(quantity > 0).tolist()
    return replace(counted, sales=replace(counted.sales, quantity=np.maximum(quantity, 0))).take(kept)


def _in_order(pool: Pool, tables: Sequence[Folded], cautions: tuple[Caution, ...]) -> Joined:
    """All rows in the order of the file and row each came from first."""
    whole = beside(*tables)
    first = np.array([min(group) for group in whole.groups], dtype=np.int64)
    order = np.argsort(first, kind="stable")
    first = first[order]
    sales = replace(_counted(whole.sales.take(order)), row=pool.sales.row[first])
    return Joined(sales, pool.part[first], pool.piece[first], cautions)
