"""Did a row of sold history change?  Sixteen bytes that stand for all of its cells and for where it came from."""

import datetime as dt
import hashlib
from collections.abc import Sequence
from dataclasses import fields

from models.values.sales import Sales

_CELLS = tuple(field.name for field in fields(Sales))


def fingerprints(import_ids: Sequence[str], pieces: Sequence[int], sales: Sales) -> list[bytes]:
    """One a row, in the rows' order; no two rows of one shop share one."""
    cells = zip(*([_text(value) for value in getattr(sales, name).tolist()] for name in _CELLS), strict=True)
    return [
        hashlib.blake2b("\x1f".join((place, str(piece), *row)).encode(), digest_size=16).digest()
        for place, piece, row in zip(import_ids, pieces, cells, strict=True)
    ]


def _text(value: str | int | float | dt.date | None) -> str:
    return value if isinstance(value, str) else repr(value)
