"""Model versions of a shop."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from models.store.now import moment, now_ms, optional_moment
from models.store.paging import newest_first, newest_page
from models.store.queries.blobs import Blobs
from models.store.queries.shops import Shops
from models.store.records import ModelVersionRecord, Page, ShopId
from models.store.states import ModelState
from models.store.tables.base import new_id
from models.store.tables.model_versions import model_version
from models.store.tables.shops import shop as shop_table
from models.values.errors import NotFound
from models.values.given import Given


@dataclass(frozen=True)
class Fitted:
    """What a training made."""

    artifact: bytes
    fingerprint: str
    sales_used: int
    learned: Given
    facts: dict[str, Any]


class ModelVersions:
    """Queries over `model_version`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection
        self._blobs = Blobs(connection)

    def add(self, shop: ShopId, as_of: dt.date, seed: int) -> ModelVersionRecord:
        """A new version, next in number, still to be fitted."""
        Shops(self._connection).lock(shop)
        last = sa.select(sa.func.coalesce(sa.func.max(model_version.c.number), 0))
        number = self._connection.execute(last.where(model_version.c.shop_id == shop)).scalar_one() + 1
        values = {"id": new_id(), "shop_id": shop, "number": number, "state": ModelState.TRAINING.value}
        self._connection.execute(
            model_version.insert().values(**values, as_of=as_of, seed=seed, learned={}, facts={}, created_at=now_ms())
        )
        return self.require(shop, number)

    def require(self, shop: ShopId, number: int) -> ModelVersionRecord:
        """One version; NotFound if the shop has none such."""
        return _record(self._row(shop, model_version.c.number == number))

    def require_id(self, shop: ShopId, version_id: str) -> ModelVersionRecord:
        """The same by id."""
        return _record(self._row(shop, model_version.c.id == version_id))

    def page(self, shop: ShopId, limit: int, cursor: str | None) -> Page[ModelVersionRecord]:
        """Versions, newest first."""
        query = sa.select(model_version).where(model_version.c.shop_id == shop)
        rows = self._connection.execute(newest_first(query, model_version, cursor, limit)).all()
        return newest_page(rows, limit, _record)

    def any_usable(self, shop: ShopId) -> bool:
        """True if a version is fitted or being fitted."""
        usable = sa.and_(model_version.c.shop_id == shop, model_version.c.state != ModelState.FAILED.value)
        return bool(self._connection.execute(sa.select(sa.exists().where(usable))).scalar_one())

    def get_active_number(self, shop: ShopId) -> int | None:
        """The version in use."""
        query = sa.select(model_version.c.number).join(shop_table, shop_table.c.active_model_id == model_version.c.id)
        return self._connection.execute(query.where(shop_table.c.id == shop)).scalar_one_or_none()

    def artifact(self, shop: ShopId, number: int) -> bytes:
        """The fitted model's bytes."""
        row = self._row(shop, model_version.c.number == number)
        if row.artifact_id is None:
            raise NotFound(f"Model version {number} is not fitted.")
        return self._blobs.read(shop, row.artifact_id)

    def save_fitted(self, shop: ShopId, version_id: str, fitted: Fitted) -> ModelVersionRecord:
        """Keep what the training made."""
        artifact_id, _, _ = self._blobs.add(shop, [fitted.artifact])
        values = {"artifact_id": artifact_id, "fingerprint": fitted.fingerprint, "sales_used": fitted.sales_used}
        told = {"learned": fitted.learned, "facts": fitted.facts, "error": None, "trained_at": now_ms()}
        self._update(shop, version_id, state=ModelState.FITTED.value, **values, **told)
        return self.require_id(shop, version_id)

    def save_backtest(self, shop: ShopId, version_id: str, found: Mapping[str, Any]) -> None:
        """Keep how near it would have been."""
        self._update(shop, version_id, backtest=dict(found))

    def fail(self, shop: ShopId, version_id: str, reason: str) -> None:
        """Say why it could not be fitted."""
        self._update(shop, version_id, state=ModelState.FAILED.value, error=reason)

    def activate(self, shop: ShopId, number: int) -> ModelVersionRecord:
        """Take a fitted version into use, the one before out of it."""
        active = sa.and_(model_version.c.shop_id == shop, model_version.c.state == ModelState.ACTIVE.value)
        self._connection.execute(model_version.update().where(active).values(state=ModelState.FITTED.value))
        chosen = self.require(shop, number)
        self._update(shop, chosen.id, state=ModelState.ACTIVE.value)
        self._connection.execute(shop_table.update().where(shop_table.c.id == shop).values(active_model_id=chosen.id))
        return self.require(shop, number)

    def _update(self, shop: ShopId, version_id: str, **values: Any) -> None:
        mine = sa.and_(model_version.c.shop_id == shop, model_version.c.id == version_id)
        self._connection.execute(model_version.update().where(mine).values(**values))

    def _row(self, shop: ShopId, condition: sa.ColumnElement[bool]) -> Any:
        query = sa.select(model_version).where(model_version.c.shop_id == shop, condition)
        row = self._connection.execute(query).one_or_none()
        if row is None:
            raise NotFound("There is no such model version.")
        return row


def _record(row: Any) -> ModelVersionRecord:
    return ModelVersionRecord(
        id=row.id,
        number=row.number,
        state=ModelState(row.state),
        as_of=row.as_of,
        seed=row.seed,
        fingerprint=row.fingerprint,
        sales_used=row.sales_used,
        learned=row.learned,
        facts=row.facts,
        error=row.error,
        created_at=moment(row.created_at),
        trained_at=optional_moment(row.trained_at),
        backtest=row.backtest,
    )
