"""What a shop said of files with these headers."""

import datetime as dt
from collections.abc import Mapping
from zoneinfo import ZoneInfo

import sqlalchemy as sa
from sqlalchemy.dialects import postgresql, sqlite

from models.store.now import moment, now_ms
from models.store.records import ShopId
from models.store.tables.files import remembered_columns as remembered


class RememberedColumns:
    """Queries over `remembered_columns`; `kind` is what sort of answers, `signature` of which headers, and source."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def get(self, shop: ShopId, kind: str, signature: str) -> dict[str, str]:
        """The mapping, empty where nothing was said."""
        mine = (remembered.c.shop_id == shop, remembered.c.kind == kind, remembered.c.signature == signature)
        found = self._connection.execute(sa.select(remembered.c.mapping).where(*mine)).scalar_one_or_none()
        return dict(found or {})

    def day(self, shop: ShopId, kind: str, signature: str, time_zone: str) -> dt.date | None:
        """The day it was said, where a shop is; None where nothing was."""
        mine = (remembered.c.shop_id == shop, remembered.c.kind == kind, remembered.c.signature == signature)
        at = self._connection.execute(sa.select(remembered.c.remembered_at).where(*mine)).scalar_one_or_none()
        return None if at is None else moment(at).astimezone(ZoneInfo(time_zone)).date()

    def put(self, shop: ShopId, kind: str, signature: str, mapping: Mapping[str, str]) -> None:
        """Remember this from now on; two workers may do so at once."""
        dialect = postgresql if self._connection.dialect.name == "postgresql" else sqlite
        said = {"mapping": dict(mapping), "remembered_at": now_ms()}
        insert = dialect.insert(remembered).values(shop_id=shop, kind=kind, signature=signature, **said)
        self._connection.execute(
            insert.on_conflict_do_update(index_elements=["shop_id", "kind", "signature"], set_=said)
        )
