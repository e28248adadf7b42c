"""Settings of shops and of sources, each with a version that only its reader may replace."""

from typing import Any

import sqlalchemy as sa

from models.store.now import now_ms
from models.store.records import SettingsRecord, ShopId, SourceRecord
from models.store.tables.base import new_id
from models.store.tables.shops import shop_settings, source
from models.values.errors import StaleVersion
from models.values.given import Given

_STALE = "These settings were changed since you read them; read them again."


class ShopSettingsQueries:
    """Queries over `settings`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def get(self, shop: ShopId) -> SettingsRecord:
        """What the shop gave."""
        row = self._connection.execute(sa.select(shop_settings).where(shop_settings.c.shop_id == shop)).one()
        return SettingsRecord(row.given, row.version)

    def put(self, shop: ShopId, given: Given, version: int) -> None:
        """Replace it; StaleVersion unless `version` stands."""
        query = shop_settings.update().where(shop_settings.c.shop_id == shop, shop_settings.c.version == version)
        if not self._connection.execute(query.values(given=given, version=version + 1, updated_at=now_ms())).rowcount:
            raise StaleVersion(_STALE)


class Sources:
    """Queries over `source`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def get(self, shop: ShopId, name: str) -> SourceRecord | None:
        """A source by name."""
        query = sa.select(source).where(source.c.shop_id == shop, source.c.name == name)
        row = self._connection.execute(query).one_or_none()
        return None if row is None else _record(row)

    def all(self, shop: ShopId) -> tuple[SourceRecord, ...]:
        """Every source, by name."""
        query = sa.select(source).where(source.c.shop_id == shop).order_by(source.c.name)
        return tuple(_record(row) for row in self._connection.execute(query))

    def found_or_added(self, shop: ShopId, name: str) -> SourceRecord:
        """The source of that name, made if it is new."""
        found = self.get(shop, name)
        if found is not None:
            return found
        values = {"id": new_id(), "shop_id": shop, "name": name, "version": 1, "given": {}}
        self._connection.execute(source.insert().values(**values, created_at=now_ms()))
        return SourceRecord(values["id"], name, {}, 1)  # type: ignore[arg-type]

    def put(self, shop: ShopId, name: str, given: Given, version: int) -> SourceRecord:
        """Replace its terms; StaleVersion unless `version` stands (1 for a new source)."""
        found = self.found_or_added(shop, name)
        query = source.update().where(source.c.id == found.id, source.c.shop_id == shop, source.c.version == version)
        if not self._connection.execute(query.values(given=given, version=version + 1)).rowcount:
            raise StaleVersion(_STALE)
        return SourceRecord(found.id, name, given, version + 1)


def _record(row: Any) -> SourceRecord:
    return SourceRecord(row.id, row.name, row.given, row.version)
