"""Refunds, fees and cancellations that stand in rows of their own: which sale are they of?

By order, then listing, then words.  The same row in two overlapping files counts once.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from models.intake.sales.join_pool import BLANK_DAY, Pool, days_of
from models.intake.sales.join_table import Folded
from models.values.arrays import FloatArray
from models.values.problems import Caution
from models.values.sale_parts import FEES, REFUND, VOID

_MOST_NAMED = 5
_SAME_SHARE = 0.01  # two files' fees of one sale this close are one figure


def without_void(pool: Pool, sold: Folded) -> Folded:
    """The sales but for those that a later file calls cancelled."""
    sales = _Sales(pool, sold)
    gone: set[int] = set()
    for row in pool.rows([VOID]):
        for place in sales.of(row):
            if max(pool.of[member] for member in sold.groups[place]) < pool.of[row]:
                gone.add(place)
    return sold.take([place for place in range(len(sold)) if place not in gone]) if gone else sold


@dataclass(frozen=True)
class Attached:
    """The sales with their refunds and fees."""

    sold: Folded
    cautions: tuple[Caution, ...]


def attach(pool: Pool, sold: Folded) -> Attached:
    """Add rows of refunds and fees to the sales they are of."""
    finder = _Sales(pool, sold)
    refunds, lost_refunds = _summed(pool, finder, (REFUND, FEES), "refunded")
    fees, lost_fees = _summed(pool, finder, (FEES,), "fees")
    labels, lost_labels = _summed(pool, finder, (FEES,), "shipping_paid")
    sales = sold.sales
    refunded = np.where(np.isnan(refunds), sales.refunded, np.fmax(sales.refunded, refunds))
    twice = ~np.isnan(fees) & ~np.isnan(sales.fees) & (np.abs(fees - sales.fees) > _SAME_SHARE * np.abs(fees))
    made = replace(
        sales,
        refunded=refunded,
        fees=np.where(np.isnan(fees), sales.fees, fees),
        shipping_paid=np.where(np.isnan(labels), sales.shipping_paid, labels),
    )
    told = _told(_named(pool, lost_refunds), _named(pool, [*lost_fees, *lost_labels]), int(twice.sum()))
    return Attached(replace(sold, sales=made), told)


class _Sales:
    """Finds the sales a row of another kind speaks of."""

    def __init__(self, pool: Pool, sold: Folded) -> None:
        self._pool, self._sold = pool, sold
        self._by_order, self._by_listing = sold.by_order(), sold.by_listing(pool)
        self._day = days_of(sold.sales.sold_on)
        self._by_words: dict[str, list[int]] | None = None

    def of(self, row: int) -> list[int]:
        pool = self._pool
        if pool.order[row]:
            return self._narrowed(row, self._by_order.get(pool.order[row], []))
        if pool.listing[row]:
            return self._last_before(row, self._narrowed(row, self._by_listing.get(pool.listing[row], [])))
        return self._last_before(row, self._with_words(row)) if pool.title[row] else []

    def _narrowed(self, row: int, places: Sequence[int]) -> list[int]:
        """The lines of an order that the row names, all where it names none."""
        for name in ("listing", "sku", "title"):
            column = getattr(self._pool, name)
            same = [p for p in places if column[row] and any(column[m] == column[row] for m in self._sold.groups[p])]
            if same:
                return same
        return list(places)

    def _last_before(self, row: int, places: Sequence[int]) -> list[int]:
        day = self._pool.sold_on[row]
        earlier = [p for p in places if BLANK_DAY in (day, self._day[p]) or self._day[p] <= day]
        return [max(earlier, key=lambda p: (self._day[p], p))] if earlier else []

    def _with_words(self, row: int) -> list[int]:
        if self._by_words is None:
            self._by_words = {}
            for place, group in enumerate(self._sold.groups):
                self._by_words.setdefault(self._pool.title[group[-1]], []).append(place)
        return [p for p in self._by_words.get(self._pool.title[row], []) if self._pool.sku[row] in self._skus(p)]

    def _skus(self, place: int) -> set[str]:
        return {self._pool.sku[member] for member in self._sold.groups[place]}


def _summed(pool: Pool, finder: _Sales, roles: tuple[int, ...], name: str) -> tuple[FloatArray, list[int]]:
    """Amounts a unit of each sale [minor units], NaN where no row speaks of it; and the rows that met none."""
    sold = finder._sold
    total, lost = np.full(len(sold), np.nan), []
    amounts = getattr(pool.sales, name)
    gross = np.nan_to_num(sold.sales.sold_price) * np.maximum(sold.sales.quantity, 1)
    for row in _once(pool, [row for row in pool.rows(roles) if not np.isnan(amounts[row])], amounts):
        places = finder.of(row)
        if not places:
            lost.append(row)
            continue
        share = (
            gross[places] / gross[places].sum() if gross[places].sum() > 0 else np.full(len(places), 1 / len(places))
        )
        total[places] = np.nan_to_num(total[places]) + share * amounts[row]
    return total / np.maximum(sold.sales.quantity, 1), lost


def _once(pool: Pool, rows: Iterable[int], amounts: FloatArray) -> list[int]:
    """Rows of all files, those that several files hold once: the k-th equal row of one is the k-th of another."""
    seen: set[tuple[object, ...]] = set()
    times: Counter[tuple[object, ...]] = Counter()
    kept = []
    for row in rows:
        same = (pool.order[row], pool.listing[row], pool.title[row], pool.sold_on[row], round(float(amounts[row]), 3))
        times[(pool.of[row], *same)] += 1
        mark = (*same, times[(pool.of[row], *same)])
        if mark not in seen:
            seen.add(mark)
            kept.append(row)
    return kept


def _named(pool: Pool, rows: Sequence[int]) -> str:
    """How many rows, and what the first of them say."""
    if not rows:
        return ""
    said = [_one(pool, row) for row in rows[:_MOST_NAMED]]
    return f"{len(rows):,} ({'; '.join(said)}{'; ...' if len(rows) > _MOST_NAMED else ''})"


def _one(pool: Pool, row: int) -> str:
    told = (
        ("order", pool.order[row]),
        ("listing", pool.listing[row]),
        ("", f"'{pool.sales.title[row]}'" if pool.title[row] else ""),
    )
    words = " ".join(f"{name} {text}".strip() for name, text in told if text)
    return f"row {int(pool.sales.row[row])}{f': {words}' if words else ''}"


def _told(refunds: str, fees: str, twice: int) -> tuple[Caution, ...]:
    cautions = []
    if refunds:
        what = f"Refunds that belong to no sale in your files: {refunds}. They were not counted."
        cautions.append(Caution(what, "Import the orders they belong to; the refunds then join them."))
    if fees:
        what = f"Rows of fees that belong to no sale in your files: {fees}. They were not counted."
        cautions.append(Caution(what, "Import the orders they belong to; the fees then join them."))
    if twice:
        what = f"Sales whose fees two files tell differently: {twice}. Those of the fee statement were taken."
        cautions.append(Caution(what, "See whether the statement covers all fees of these sales."))
    return tuple(cautions)
