"""Lots of a shop."""

import datetime as dt
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from models.store.now import moment, now_ms
from models.store.paging import newest_first, newest_page
from models.store.queries.blobs import Blobs
from models.store.queries.ceiling_stamps import CeilingStamps
from models.store.queries.settings import Sources
from models.store.queries.uploads import Uploads
from models.store.records import LotRecord, Page, ShopId, UploadRecord
from models.store.states import FileState
from models.store.tables.base import new_id
from models.store.tables.evaluations import evaluation
from models.store.tables.files import upload
from models.store.tables.lots import lot
from models.store.tables.shops import source
from models.values.errors import NotFound
from models.values.given import Given

_TABLE = lot.join(upload, upload.c.id == lot.c.upload_id).outerjoin(source, source.c.id == lot.c.source_id)
_COLUMNS = (*lot.c, upload.c.filename, source.c.name.label("source_name"))


@dataclass(frozen=True)
class NewLot:
    """A lot about to be kept."""

    name: str
    given: Given
    mapping: dict[str, str]
    seed: int
    as_of: dt.date | None


class Lots:
    """Queries over `lot`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection
        self._uploads = Uploads(connection)
        self._stamps = CeilingStamps(connection)

    def add(self, shop: ShopId, manifest: UploadRecord, new: NewLot) -> LotRecord:
        """A new lot, its manifest still to be read."""
        made = new_id()
        nothing_yet = {"lines": 0, "units": 0, "state": FileState.READING.value}
        values = {"id": made, "shop_id": shop, "upload_id": manifest.id, "source_id": self._source_id(shop, new.given)}
        asked = {"name": new.name, "given": new.given, "seed": new.seed, "as_of": new.as_of}
        self._connection.execute(lot.insert().values(**values, **asked, **nothing_yet, created_at=now_ms()))
        self._uploads.set_mapping(shop, manifest.id, new.mapping)
        return self.require(shop, made)

    def require(self, shop: ShopId, lot_id: str) -> LotRecord:
        """One lot; NotFound if the shop has none such."""
        return self._record(self._row(shop, lot_id))

    def require_upload(self, shop: ShopId, lot_id: str) -> UploadRecord:
        """Its manifest."""
        return self._uploads.require(shop, self._row(shop, lot_id).upload_id)

    def page(self, shop: ShopId, limit: int, cursor: str | None) -> Page[LotRecord]:
        """Lots, newest first."""
        query = sa.select(*_COLUMNS).select_from(_TABLE).where(lot.c.shop_id == shop)
        rows = self._connection.execute(newest_first(query, lot, cursor, limit)).all()
        return newest_page(rows, limit, self._record)

    def any(self, shop: ShopId) -> bool:
        """True once a manifest was uploaded."""
        return bool(self._connection.execute(sa.select(sa.exists().where(lot.c.shop_id == shop))).scalar_one())

    def waiting_for_model(self, shop: ShopId) -> tuple[LotRecord, ...]:
        """Lots that were read before there was a model, oldest first."""
        query = sa.select(*_COLUMNS).select_from(_TABLE)
        query = query.where(lot.c.shop_id == shop, lot.c.state == FileState.NEEDS_MODEL.value)
        return tuple(self._record(row) for row in self._connection.execute(query.order_by(lot.c.created_at, lot.c.id)))

    def set_given(self, shop: ShopId, lot_id: str, given: Given) -> LotRecord:
        """Replace its own settings."""
        self._update(shop, lot_id, given=given, source_id=self._source_id(shop, given))
        return self.require(shop, lot_id)

    def free_day(self, shop: ShopId, lot_id: str, seed: int) -> LotRecord:
        """No day is fixed for it any more: each evaluation is as of its own day; and it has this seed."""
        self._update(shop, lot_id, as_of=None, seed=seed)
        return self.require(shop, lot_id)

    def set_state(self, shop: ShopId, lot_id: str, state: FileState) -> LotRecord:
        """Move on; an earlier error is forgotten."""
        self._update(shop, lot_id, state=state.value, error=None)
        return self.require(shop, lot_id)

    def save_read(self, shop: ShopId, lot_id: str, lines: int, units: int, tag_total: float | None) -> None:
        """Its manifest was read."""
        self._update(shop, lot_id, lines=lines, units=units, tag_total=tag_total)

    def fail(self, shop: ShopId, lot_id: str, reason: str) -> None:
        """Say why; a lot with an evaluation keeps it and stays ready."""
        still = sa.case((lot.c.evaluation_id.is_not(None), FileState.READY.value), else_=FileState.FAILED.value)
        self._update(shop, lot_id, state=still, error=reason)

    def delete(self, shop: ShopId, lot_id: str) -> None:
        """Forget it with its manifest, lines, evaluations and draws."""
        upload_id = self._row(shop, lot_id).upload_id
        draws = sa.select(evaluation.c.components_id).where(evaluation.c.lot_id == lot_id, evaluation.c.shop_id == shop)
        held = [one for one in self._connection.execute(draws).scalars() if one]
        self._connection.execute(lot.delete().where(lot.c.shop_id == shop, lot.c.id == lot_id))
        self._uploads.delete(shop, upload_id)
        Blobs(self._connection).delete(shop, held)

    def _source_id(self, shop: ShopId, given: Given) -> str | None:
        name = given.get("lot", {}).get("source")
        return Sources(self._connection).found_or_added(shop, name).id if name else None

    def _update(self, shop: ShopId, lot_id: str, **values: Any) -> None:
        self._connection.execute(lot.update().where(lot.c.shop_id == shop, lot.c.id == lot_id).values(**values))

    def _row(self, shop: ShopId, lot_id: str) -> Any:
        mine = sa.and_(lot.c.shop_id == shop, lot.c.id == lot_id)
        row = self._connection.execute(sa.select(*_COLUMNS).select_from(_TABLE).where(mine)).one_or_none()
        if row is None:
            raise NotFound("There is no such lot.")
        return row

    def _record(self, row: Any) -> LotRecord:
        return LotRecord(
            id=row.id,
            name=row.name,
            source=row.source_name,
            filename=row.filename,
            state=FileState(row.state),
            error=row.error,
            given=row.given,
            seed=row.seed,
            as_of=row.as_of,
            file=self._uploads.facts(row.shop_id, row.upload_id),
            lines=row.lines,
            units=row.units,
            tag_total=row.tag_total,
            evaluation_id=row.evaluation_id,
            created_at=moment(row.created_at),
            fixed=self._stamps.get_last(row.shop_id, row.id),
        )
