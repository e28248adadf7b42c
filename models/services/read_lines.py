"""The lines of a lot: with their estimates once evaluated, as the manifest has them before."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from models.store.records import Page, ShopId
from models.store.unit_of_work import UnitOfWork

MOST_NUMBERS = 500  # that one query takes


@dataclass(frozen=True)
class LinesAsked:
    """`sort`: a column of `models.store.queries.line_columns.SORTABLE`, "-" before it for falling; blanks come last.

    `filter`: words the description, brand or category must hold, and terms such as action:list or basis:prior_only.
    """

    sort: str = "no"
    filter: str = ""
    limit: int = 50
    cursor: str | None = None


def read_lines(work: UnitOfWork, shop: ShopId, lot_id: str, asked: LinesAsked | None = None) -> Page[Mapping[str, Any]]:
    """Contract lines as JSON; Rejected for an unknown column, term or cursor."""
    asked = asked or LinesAsked()
    lot = work.lots.require(shop, lot_id)
    how = (asked.sort, asked.filter, asked.limit, asked.cursor)
    if lot.evaluation_id is None:
        return work.lines.page(shop, lot_id, work.shops.require(shop).currency, how)
    return work.evaluations.lines(shop, lot.evaluation_id, how)


def dearest_lines(
    work: UnitOfWork, shop: ShopId, lot_id: str, numbers: Sequence[int], limit: int
) -> tuple[Mapping[str, Any], ...]:
    """Those of these lines that bring most; of very many numbers the first ones count."""
    lot = work.lots.require(shop, lot_id)
    if lot.evaluation_id is None or not numbers:
        return ()
    return work.evaluations.dearest_of(shop, lot.evaluation_id, numbers[:MOST_NUMBERS], limit)


def all_lines(work: UnitOfWork, shop: ShopId, lot_id: str) -> tuple[Mapping[str, Any], ...]:
    """Every line of the lot's current evaluation in the manifest's order, for files; empty before the first one."""
    lot = work.lots.require(shop, lot_id)
    return work.evaluations.all_lines(shop, lot.evaluation_id) if lot.evaluation_id else ()
