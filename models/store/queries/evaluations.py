"""Evaluations: written once, never changed."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from models.store.now import moment, now_ms
from models.store.paging import newest_first, newest_page
from models.store.queries.blobs import Blobs
from models.store.queries.evaluation_rows import evaluation_row
from models.store.queries.line_pages import line_page
from models.store.records import EvaluationRecord, EvaluationSummary, LotRecord, Page, ShopId
from models.store.states import FileState
from models.store.tables.base import new_id
from models.store.tables.evaluations import evaluation, evaluation_line
from models.store.tables.jobs import job
from models.store.tables.lots import lot
from models.store.tables.model_versions import model_version
from models.values.errors import NotFound

_BATCH = 2_000


@dataclass(frozen=True)
class NewEvaluation:
    """What an appraisal gave, with what it was given; `document` without ids and model version."""

    model_version: int
    seed: int
    as_of: dt.date
    draw_format: int
    frozen: Mapping[str, Any]
    document: Mapping[str, Any]
    lines: Sequence[Mapping[str, Any]]
    components: bytes


class Evaluations:
    """Queries over `evaluation` and `evaluation_line`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection
        self._blobs = Blobs(connection)

    def add(self, shop: ShopId, lot_id: str, job_id: str, new: NewEvaluation) -> str:
        """Keep an evaluation; it becomes the lot's current one unless a later asked one is there already."""
        of_lot = sa.and_(evaluation.c.lot_id == lot_id, evaluation.c.shop_id == shop)
        self._connection.execute(sa.select(lot.c.id).where(lot.c.id == lot_id, lot.c.shop_id == shop).with_for_update())
        asked_at = self._connection.execute(sa.select(job.c.created_at).where(job.c.id == job_id)).scalar_one()
        last = sa.select(sa.func.coalesce(sa.func.max(evaluation.c.number), 0)).where(of_lot)
        number = self._connection.execute(last).scalar_one() + 1
        made = self._insert(shop, lot_id, number, asked_at, new)
        newer = sa.select(evaluation.c.id).where(of_lot, evaluation.c.asked_at > asked_at)
        if self._connection.execute(newer.limit(1)).first() is None:
            current = {"evaluation_id": made, "state": FileState.READY.value, "error": None}
            self._connection.execute(lot.update().where(lot.c.id == lot_id, lot.c.shop_id == shop).values(**current))
        return made

    def _insert(self, shop: ShopId, lot_id: str, number: int, asked_at: int, new: NewEvaluation) -> str:
        made, ceiling = new_id(), new.document["bid_ceiling"]
        where = {"id": made, "shop_id": shop, "lot_id": lot_id, "number": number, "asked_at": asked_at}
        asked = {"model_version": new.model_version, "seed": new.seed, "as_of": new.as_of, "frozen": dict(new.frozen)}
        found = {"document": dict(new.document), "verdict": ceiling["verdict"], "amount": ceiling["amount"]}
        draws = {"draw_format": new.draw_format, "components_id": self._blobs.add(shop, [new.components])[0]}
        self._connection.execute(evaluation.insert().values(**where, **asked, **found, **draws, created_at=now_ms()))
        for start in range(0, len(new.lines), _BATCH):  # all rows as text at once would take as much again as the lot
            some = new.lines[start : start + _BATCH]
            rows = [evaluation_row(one) | {"evaluation_id": made, "shop_id": shop} for one in some]
            self._connection.execute(evaluation_line.insert(), rows)
        return made

    def require(self, shop: ShopId, evaluation_id: str) -> EvaluationRecord:
        """One evaluation; NotFound if the shop has none such."""
        version = sa.and_(
            model_version.c.shop_id == evaluation.c.shop_id, model_version.c.number == evaluation.c.model_version
        )
        query = sa.select(evaluation, model_version.c.trained_at, model_version.c.sales_used).join(
            model_version, version
        )
        row = self._connection.execute(
            query.where(evaluation.c.shop_id == shop, evaluation.c.id == evaluation_id)
        ).one_or_none()
        if row is None:
            raise NotFound("There is no such evaluation.")
        return _record(row)

    def frozen(self, shop: ShopId, evaluation_id: str) -> tuple[int, Mapping[str, Any]]:
        """The model version that an evaluation was asked of, and what it was given; NotFound if there is none such."""
        query = sa.select(evaluation.c.model_version, evaluation.c.frozen)
        row = self._connection.execute(
            query.where(evaluation.c.shop_id == shop, evaluation.c.id == evaluation_id)
        ).one_or_none()
        if row is None:
            raise NotFound("There is no such evaluation.")
        return row.model_version, row.frozen

    def draw_format(self, shop: ShopId, evaluation_id: str) -> int:
        """The form of an evaluation's draws; NotFound if the shop has none such."""
        query = sa.select(evaluation.c.draw_format)
        found = self._connection.execute(
            query.where(evaluation.c.shop_id == shop, evaluation.c.id == evaluation_id)
        ).scalar_one_or_none()
        if found is None:
            raise NotFound("There is no such evaluation.")
        return int(found)

    def get_newest(self, shop: ShopId) -> EvaluationRecord | None:
        """The shop's newest evaluation of any lot."""
        query = sa.select(evaluation.c.id).where(evaluation.c.shop_id == shop)
        newest = self._connection.execute(
            query.order_by(evaluation.c.created_at.desc(), evaluation.c.id.desc())
        ).first()
        return None if newest is None else self.require(shop, newest.id)

    def page(self, shop: ShopId, of_lot: LotRecord, limit: int, cursor: str | None) -> Page[EvaluationSummary]:
        """Evaluations of a lot, newest first."""
        wanted = [column for column in evaluation.c if column.name not in ("document", "frozen")]
        query = sa.select(*wanted).where(evaluation.c.shop_id == shop, evaluation.c.lot_id == of_lot.id)
        rows = self._connection.execute(newest_first(query, evaluation, cursor, limit)).all()
        return newest_page(rows, limit, lambda row: _summary(row, row.id == of_lot.evaluation_id))

    def lines(
        self, shop: ShopId, evaluation_id: str, asked: tuple[str, str, int, str | None]
    ) -> Page[Mapping[str, Any]]:
        """Contract lines; `asked` is sort, filter, limit, cursor."""
        mine = sa.and_(evaluation_line.c.evaluation_id == evaluation_id, evaluation_line.c.shop_id == shop)
        return line_page(self._connection, evaluation_line, mine, asked, lambda row: row.document)

    def get_line(self, shop: ShopId, evaluation_id: str, no: int) -> Mapping[str, Any] | None:
        """One contract line, None where the evaluation does not have it."""
        mine = sa.and_(evaluation_line.c.evaluation_id == evaluation_id, evaluation_line.c.shop_id == shop)
        query = sa.select(evaluation_line.c.document).where(mine, evaluation_line.c.no == no)
        return self._connection.execute(query).scalar_one_or_none()

    def dearest_of(
        self, shop: ShopId, evaluation_id: str, numbers: Sequence[int], limit: int
    ) -> tuple[Mapping[str, Any], ...]:
        """Those of these lines that bring most."""
        mine = sa.and_(evaluation_line.c.evaluation_id == evaluation_id, evaluation_line.c.shop_id == shop)
        query = sa.select(evaluation_line.c.document).where(mine, evaluation_line.c.no.in_(numbers))
        order = (evaluation_line.c.cash_proceeds.desc(), evaluation_line.c.no)
        return tuple(self._connection.execute(query.order_by(*order).limit(limit)).scalars())

    def all_lines(self, shop: ShopId, evaluation_id: str) -> tuple[Mapping[str, Any], ...]:
        """Every line in the manifest's order."""
        mine = sa.and_(evaluation_line.c.evaluation_id == evaluation_id, evaluation_line.c.shop_id == shop)
        query = sa.select(evaluation_line.c.document).where(mine).order_by(evaluation_line.c.no)
        return tuple(self._connection.execute(query).scalars())

    def components(self, shop: ShopId, evaluation_id: str) -> bytes:
        """The stored draws; NotFound if there are none."""
        query = sa.select(evaluation.c.components_id)
        found = self._connection.execute(
            query.where(evaluation.c.shop_id == shop, evaluation.c.id == evaluation_id)
        ).scalar_one_or_none()
        if found is None:
            raise NotFound("There are no stored draws of this evaluation.")
        return self._blobs.read(shop, found)


def _record(row: Any) -> EvaluationRecord:
    trained_on = moment(row.trained_at).date().isoformat()
    document = {"id": row.id} | dict(row.document)
    document["lot"] = {"id": row.lot_id} | document.get("lot", {})
    document["model_version"] = {
        "number": row.model_version, "trained_on": trained_on, "sales_used": row.sales_used,
    }  # fmt: skip
    return EvaluationRecord(
        row.id,
        row.lot_id,
        row.number,
        row.model_version,
        row.seed,
        row.as_of,
        row.draw_format,
        moment(row.created_at),
        document,
    )


def _summary(row: Any, current: bool) -> EvaluationSummary:
    created = moment(row.created_at)
    return EvaluationSummary(
        row.id, row.number, row.model_version, row.seed, row.as_of, row.verdict, row.amount, current, created
    )
