"""What sellers typed in for single lines, each with a version that only its reader may replace."""

from typing import Any

import sqlalchemy as sa
from sqlalchemy.exc import IntegrityError

from models.store.now import now_ms
from models.store.records import LineEditRecord, ShopId
from models.store.tables.lots import line, line_edit
from models.values.errors import NotFound, StaleVersion

_STALE = "This line was changed since you read it; read it again."


class LineEdits:
    """Queries over `line_edit`; a line without a row there stands at version 1."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def require(self, shop: ShopId, lot_id: str, no: int) -> LineEditRecord:
        """What stands for line `no`; NotFound if the lot has none such."""
        mine = sa.and_(line.c.shop_id == shop, line.c.lot_id == lot_id, line.c.no == no)
        row = self._connection.execute(sa.select(line.c.row).where(mine)).scalar_one_or_none()
        if row is None:
            raise NotFound("There is no such line in this lot.")
        query = sa.select(line_edit).where(_of(shop, lot_id), line_edit.c.row == row)
        kept = self._connection.execute(query).one_or_none()
        return LineEditRecord(row) if kept is None else _record(kept)

    def all(self, shop: ShopId, lot_id: str) -> tuple[LineEditRecord, ...]:
        """Every line of a lot that was ever edited, by the file's row."""
        query = sa.select(line_edit).where(_of(shop, lot_id)).order_by(line_edit.c.row)
        return tuple(_record(row) for row in self._connection.execute(query))

    def put(self, shop: ShopId, lot_id: str, edit: LineEditRecord) -> LineEditRecord:
        """Replace what stood at `edit.version`; StaleVersion unless that is the current one."""
        values: dict[str, Any] = {"looked_up": list(edit.looked_up), "action": edit.action, "edited_at": now_ms()}
        values["version"] = edit.version + 1
        which = sa.and_(_of(shop, lot_id), line_edit.c.row == edit.row, line_edit.c.version == edit.version)
        if not self._connection.execute(line_edit.update().where(which).values(**values)).rowcount:
            self._add(values | {"shop_id": shop, "lot_id": lot_id, "row": edit.row}, edit.version)
        return LineEditRecord(edit.row, edit.looked_up, edit.action, edit.version + 1)

    def _add(self, values: dict[str, Any], version: int) -> None:
        if version != 1:
            raise StaleVersion(_STALE)
        try:
            self._connection.execute(line_edit.insert().values(**values))
        except IntegrityError as error:
            raise StaleVersion(_STALE) from error


def _of(shop: ShopId, lot_id: str) -> sa.ColumnElement[bool]:
    return sa.and_(line_edit.c.shop_id == shop, line_edit.c.lot_id == lot_id)


def _record(row: Any) -> LineEditRecord:
    return LineEditRecord(row.row, tuple(row.looked_up), row.action, row.version)
