"""One line of a lot, with what the seller typed in for it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from models.store.records import LineEditRecord, ShopId
from models.store.unit_of_work import UnitOfWork


@dataclass(frozen=True)
class LineRead:
    """`document`: with its estimates once evaluated, as the manifest has it before; `edit` may be newer than those."""

    document: Mapping[str, Any]
    edit: LineEditRecord


def read_line(work: UnitOfWork, shop: ShopId, lot_id: str, no: int) -> LineRead:
    """Line `no`; NotFound if the lot has none such."""
    lot = work.lots.require(shop, lot_id)
    edit = work.line_edits.require(shop, lot.id, no)
    valued = work.evaluations.get_line(shop, lot.evaluation_id, no) if lot.evaluation_id else None
    plain = work.lines.line(shop, lot.id, no, work.shops.require(shop).currency)
    return LineRead(plain if valued is None else valued, edit)


def line_versions(work: UnitOfWork, shop: ShopId, lot_id: str) -> Mapping[int, int]:
    """Versions of a lot's edited lines by the file's row; every other line stands at 1."""
    return {one.row: one.version for one in work.line_edits.all(shop, lot_id)}
