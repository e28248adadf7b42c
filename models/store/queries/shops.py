"""Shops."""

import sqlalchemy as sa

from models.store.now import moment, now_ms
from models.store.records import ShopId, ShopRecord
from models.store.tables.base import new_id
from models.store.tables.shops import shop, shop_settings
from models.values.errors import NotFound


class Shops:
    """Queries over `shop`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def add(self, name: str, time_zone: str, currency: str) -> ShopRecord:
        """A new shop with empty settings, version 1."""
        made = ShopId(new_id())
        self._connection.execute(
            shop.insert().values(id=made, name=name, time_zone=time_zone, currency=currency, created_at=now_ms())
        )
        self._connection.execute(shop_settings.insert().values(shop_id=made, version=1, given={}, updated_at=now_ms()))
        return self.require(made)

    def require(self, shop_id: ShopId) -> ShopRecord:
        """The shop; NotFound if there is none such."""
        row = self._connection.execute(sa.select(shop).where(shop.c.id == shop_id)).one_or_none()
        if row is None:
            raise NotFound("There is no such shop.")
        return ShopRecord(ShopId(row.id), row.name, row.time_zone, row.currency, moment(row.created_at))

    def get_first(self) -> ShopRecord | None:
        """The oldest shop, None on an empty database."""
        query = sa.select(shop.c.id).order_by(shop.c.created_at, shop.c.id).limit(1)
        found = self._connection.execute(query).scalar_one_or_none()
        return None if found is None else self.require(ShopId(found))

    def lock(self, shop_id: ShopId) -> None:
        """Nobody else changes this shop's models or numbers until the transaction ends."""
        self._connection.execute(sa.select(shop.c.id).where(shop.c.id == shop_id).with_for_update())

    def set_currency(self, shop_id: ShopId, currency: str) -> None:
        """Count in another currency."""
        self._connection.execute(shop.update().where(shop.c.id == shop_id).values(currency=currency))

    def set_time_zone(self, shop_id: ShopId, time_zone: str) -> None:
        """Tell dates in another zone."""
        self._connection.execute(shop.update().where(shop.c.id == shop_id).values(time_zone=time_zone))
