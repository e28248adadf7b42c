"""What evaluations of several lots were drawn from, and which goods they have in common."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from models.store.records import ShopId
from models.store.tables.evaluations import evaluation, evaluation_line


@dataclass(frozen=True)
class DrawnFrom:
    """One evaluation without its document; draws of two lots belong together where these facts agree."""

    evaluation_id: str
    lot_id: str
    seed: int
    model_version: int
    as_of: dt.date
    draw_format: int
    created_at: int  # [ms]
    frozen: Mapping[str, Any]  # the settings documents in force


class Drawn:
    """Queries over many evaluations at once."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def of(self, shop: ShopId, evaluation_ids: Sequence[str]) -> tuple[DrawnFrom, ...]:
        """Those evaluations of the shop, oldest first."""
        wanted = [evaluation.c[name] for name in DrawnFrom.__dataclass_fields__ if name != "evaluation_id"]
        query = sa.select(evaluation.c.id.label("evaluation_id"), *wanted)
        query = query.where(evaluation.c.shop_id == shop, evaluation.c.id.in_(evaluation_ids))
        rows = self._connection.execute(query.order_by(evaluation.c.created_at, evaluation.c.id))
        return tuple(DrawnFrom(**row._mapping) for row in rows)

    def shared_items(self, shop: ShopId, evaluation_ids: Sequence[str]) -> tuple[int, float]:
        """How many items are listed or bundled in more than one of these evaluations, and what is counted twice.

        That is their expected cash [major units] but for the lot that brings most of each.  The item's name comes from
        a subquery, since PostgreSQL does not see that two bound parameters of one expression are the same.
        """
        item = evaluation_line.c.document["item"].as_string().label("item")
        query = sa.select(evaluation_line.c.evaluation_id, item, evaluation_line.c.cash_proceeds.label("cash")).where(
            evaluation_line.c.shop_id == shop,
            evaluation_line.c.evaluation_id.in_(evaluation_ids),
            evaluation_line.c.action.in_(("list", "bundle")),
        )
        line = query.subquery()
        lot = sa.select(line.c.item, sa.func.sum(line.c.cash).label("cash"))
        lot_item = lot.group_by(line.c.evaluation_id, line.c.item).subquery()
        twice = sa.func.sum(lot_item.c.cash) - sa.func.max(lot_item.c.cash)
        shared = sa.select(twice.label("twice")).group_by(lot_item.c.item).having(sa.func.count() > 1).subquery()
        row = self._connection.execute(sa.select(sa.func.count(), sa.func.sum(shared.c.twice)).select_from(shared))
        count, cash = row.one()
        return int(count), float(cash or 0.0)
