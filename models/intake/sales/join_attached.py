"""Refunds, fees and cancellations that stand in rows of their own: which sale are they of?

By order, then listing, then words.  The same row in two overlapping files counts once.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from models.intake.sales.join_finder import Finder
from models.intake.sales.join_orders import Orders
from models.intake.sales.join_pool import Pool
from models.intake.sales.join_table import Folded
from models.values.arrays import FloatArray
from models.values.problems import Caution
from models.values.sale_parts import FEES, REFUND

_MOST_NAMED = 5
_OTHER, _OWN = 0, 1  # files
_SAME_SHARE = 0.01  # two files' fees of one sale this close are one figure


@dataclass(frozen=True)
class Attached:
    """The sales with their refunds and fees."""

    sold: Folded
    cautions: tuple[Caution, ...]


def attach(pool: Pool, sold: Folded, orders: Orders) -> Attached:
    """Add rows of refunds and fees to the sales they are of."""
    finder = Finder(pool, sold, orders)
    refunds, lost_refunds = _summed(pool, finder, sold, (REFUND, FEES), "refunded")
    fees, lost_fees = _summed(pool, finder, sold, (FEES,), "fees")
    labels, lost_labels = _summed(pool, finder, sold, (FEES,), "shipping_paid")
    sales = sold.sales
    refunded = np.fmax(sales.refunded, _added(refunds))
    twice = np.abs(fees[_OTHER] - sales.fees) > _SAME_SHARE * np.abs(fees[_OTHER])
    made = replace(
        sales,
        refunded=refunded,
        fees=_with_rows(sales.fees, fees),
        shipping_paid=_with_rows(sales.shipping_paid, labels),
    )
    told = _told(_named(pool, finder, lost_refunds), _named(pool, finder, [*lost_fees, *lost_labels]), int(twice.sum()))
    return Attached(replace(sold, sales=made), told)


def _summed(
    pool: Pool, finder: Finder, sold: Folded, roles: tuple[int, ...], name: str
) -> tuple[FloatArray, list[int]]:
    """Amounts a unit of each sale [minor units] from other files and from its own, NaN where no row speaks of it.

    And the rows that met no sale.  Of its own is a file whose row of the sale tells such an amount as well.
    """
    total, lost = np.full((2, len(sold)), np.nan), []
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
        for place, part in zip(places, share.tolist(), strict=True):
            own = any(pool.of[m] == pool.of[row] and not np.isnan(amounts[m]) for m in sold.groups[place])
            total[int(own), place] = np.nan_to_num(total[int(own), place]) + part * amounts[row]
    return total / np.maximum(sold.sales.quantity, 1), lost


def _with_rows(told: FloatArray, rows: FloatArray) -> FloatArray:
    """What a sale's own row tells, with more of it in other rows of that file; another file's rows tell all of it."""
    return np.where(np.isnan(rows[_OTHER]), _added(np.stack([told, rows[_OWN]])), rows[_OTHER])


def _added(amounts: FloatArray) -> FloatArray:
    """Sums over the first axis; NaN where nothing is told."""
    return np.where(np.isnan(amounts).all(axis=0), np.nan, np.nansum(amounts, axis=0))


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


def _named(pool: Pool, finder: Finder, rows: Sequence[int]) -> str:
    """How many rows, and what the first of them say."""
    if not rows:
        return ""
    said = [_one(pool, row) + _whose(finder, row) for row in rows[:_MOST_NAMED]]
    return f"{len(rows):,} ({'; '.join(said)}{'; ...' if len(rows) > _MOST_NAMED else ''})"


def _whose(finder: Finder, row: int) -> str:
    return ", which several sales have" if finder.several(row) else ""


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
