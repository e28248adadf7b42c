"""Imports of sold history."""

from collections.abc import Collection
from typing import Any

import sqlalchemy as sa

from models.store.now import moment, now_ms
from models.store.paging import newest_first, newest_page
from models.store.queries.shops import Shops
from models.store.queries.uploads import Uploads
from models.store.records import FileFacts, ImportRecord, Page, ShopId, UploadRecord
from models.store.states import FileState
from models.store.tables.base import new_id
from models.store.tables.files import upload
from models.store.tables.sales import sales_import
from models.values.errors import NotFound
from models.values.problems import Caution

_TABLE = sales_import.join(upload, upload.c.id == sales_import.c.upload_id)
_COLUMNS = (*sales_import.c, upload.c.filename, upload.c.size)


class Imports:
    """Queries over `import`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection
        self._uploads = Uploads(connection)

    def add(self, shop: ShopId, file: UploadRecord, mapping: dict[str, str]) -> ImportRecord:
        """A new import, next in number, its file still to be read."""
        Shops(self._connection).lock(shop)
        last = sa.select(sa.func.coalesce(sa.func.max(sales_import.c.number), 0)).where(sales_import.c.shop_id == shop)
        made, number = new_id(), self._connection.execute(last).scalar_one() + 1
        values = {"id": made, "shop_id": shop, "number": number, "upload_id": file.id, "added": 0, "already_known": 0}
        self._connection.execute(
            sales_import.insert().values(**values, state=FileState.READING.value, created_at=now_ms())
        )
        self._uploads.set_mapping(shop, file.id, mapping)
        return self.require(shop, made)

    def require(self, shop: ShopId, import_id: str) -> ImportRecord:
        """One import; NotFound if the shop has none such."""
        return self._record(self._row(shop, import_id))

    def require_upload(self, shop: ShopId, import_id: str) -> UploadRecord:
        """Its file."""
        return self._uploads.require(shop, self._row(shop, import_id).upload_id)

    def page(self, shop: ShopId, limit: int, cursor: str | None) -> Page[ImportRecord]:
        """Imports, newest first."""
        query = sa.select(*_COLUMNS).select_from(_TABLE).where(sales_import.c.shop_id == shop)
        rows = self._connection.execute(newest_first(query, sales_import, cursor, limit)).all()
        return newest_page(rows, limit, self._record)

    def any(self, shop: ShopId) -> bool:
        """True once a history was uploaded."""
        query = sa.select(sa.exists().where(sales_import.c.shop_id == shop))
        return bool(self._connection.execute(query).scalar_one())

    def ready_ids(self, shop: ShopId) -> tuple[str, ...]:
        """The imports that were read, in the order they were uploaded."""
        query = sa.select(sales_import.c.id).where(
            sales_import.c.shop_id == shop, sales_import.c.state == FileState.READY.value
        )
        return tuple(self._connection.execute(query.order_by(sales_import.c.number)).scalars())

    def numbered(self, shop: ShopId, import_ids: Collection[str]) -> tuple[str, ...]:
        """These imports, each once, in the order they were uploaded."""
        query = sa.select(sales_import.c.id).where(
            sales_import.c.shop_id == shop, sales_import.c.id.in_(list(import_ids))
        )
        return tuple(self._connection.execute(query.order_by(sales_import.c.number)).scalars())

    def set_state(self, shop: ShopId, import_id: str, state: FileState) -> ImportRecord:
        """Move on; an earlier error is forgotten."""
        self._update(shop, import_id, state=state.value, error=None)
        return self.require(shop, import_id)

    def fail(self, shop: ShopId, import_id: str, reason: str) -> None:
        """Say why it could not be read; an import that was read before keeps what it brought and stays ready."""
        brought = sa.or_(sales_import.c.added > 0, sales_import.c.part_blob_id.is_not(None))
        still = sa.case((brought, FileState.READY.value), else_=FileState.FAILED.value)
        self._update(shop, import_id, state=still, error=reason)

    def save_read(self, shop: ShopId, import_id: str, added: int, already_known: int) -> None:
        """It was read: how many rows were new."""
        self._update(shop, import_id, state=FileState.READY.value, error=None, added=added, already_known=already_known)

    def save_facts(self, shop: ShopId, import_id: str, facts: FileFacts) -> None:
        """What reading its file told."""
        self._uploads.save_facts(shop, self._row(shop, import_id).upload_id, facts)

    def shop_cautions(self, shop: ShopId) -> tuple[Caution, ...]:
        """What all files together leave unsaid, as the file that was read last told."""
        told = (told for _, asked in self._asked(shop) if (told := asked.get("shop_cautions")))
        return tuple(Caution(**one) for one in next(told, ()))

    def forget_shop_cautions(self, shop: ShopId) -> None:
        """Before another file is read: what all files leave unsaid is told anew."""
        for upload_id, asked in self._asked(shop):
            if asked.get("shop_cautions"):
                values = {"asked": {**asked, "shop_cautions": []}}
                self._connection.execute(upload.update().where(upload.c.id == upload_id).values(**values))

    def _asked(self, shop: ShopId) -> list[tuple[str, dict[str, Any]]]:
        mine = (sales_import.c.shop_id == shop, upload.c.asked.is_not(None))
        rows = self._connection.execute(sa.select(upload.c.id, upload.c.asked).select_from(_TABLE).where(*mine))
        return [(row.id, row.asked) for row in rows]

    def _update(self, shop: ShopId, import_id: str, **values: Any) -> None:
        mine = sa.and_(sales_import.c.shop_id == shop, sales_import.c.id == import_id)
        self._connection.execute(sales_import.update().where(mine).values(**values))

    def _row(self, shop: ShopId, import_id: str) -> Any:
        mine = sa.and_(sales_import.c.shop_id == shop, sales_import.c.id == import_id)
        row = self._connection.execute(sa.select(*_COLUMNS).select_from(_TABLE).where(mine)).one_or_none()
        if row is None:
            raise NotFound("There is no such import.")
        return row

    def _record(self, row: Any) -> ImportRecord:
        return ImportRecord(
            row.id,
            row.number,
            row.filename,
            row.size,
            FileState(row.state),
            row.error,
            self._uploads.facts(row.shop_id, row.upload_id),
            row.added,
            row.already_known,
            moment(row.created_at),
        )
