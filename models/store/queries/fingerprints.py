"""When are two rows of sold history the same sale?

The same listing reference, order and state; where there is no order, also the same day sold.  Without a reference: the
same in every cell.  The third equal row of a file is told from its first, so a file may hold equal sales, and the same
file read again brings none of them twice.
"""

import datetime as dt
import hashlib
from collections import Counter
from dataclasses import fields

from models.values.sales import Sales

_CELLS = tuple(field.name for field in fields(Sales) if field.name != "row")


class Fingerprints:
    """Counts equal rows over all parts of one file, taken in order."""

    def __init__(self) -> None:
        self._seen: Counter[bytes] = Counter()

    def of(self, sales: Sales) -> list[bytes]:
        """Sixteen bytes a row, in the rows' order."""
        return [self._told_apart(same) for same in _same(sales)]

    def _told_apart(self, same: str) -> bytes:
        plain = _digest(same)
        self._seen[plain] += 1
        return _digest(f"{same}\x1f{self._seen[plain]}")


def _same(sales: Sales) -> list[str]:
    """What two rows must share to be the same sale."""
    cells = zip(*([_text(value) for value in getattr(sales, name).tolist()] for name in _CELLS), strict=True)
    days = [_text(day) for day in sales.sold_on.tolist()]
    keyed = zip(sales.listing_ref, sales.order_ref, sales.sold.tolist(), days, cells, strict=True)
    return [
        f"listing\x1f{listing}\x1f{sold}\x1f{order or day}" if listing else "cells\x1f" + "\x1f".join(row)
        for listing, order, sold, day, row in keyed
    ]


def _text(value: str | int | float | dt.date | None) -> str:
    return value if isinstance(value, str) else repr(value)


def _digest(text: str) -> bytes:
    return hashlib.blake2b(text.encode(), digest_size=16).digest()
