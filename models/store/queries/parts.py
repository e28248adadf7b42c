"""What each file of sold history said by itself: kept whole, since a further file can change what it means."""

from dataclasses import fields

import numpy as np
import sqlalchemy as sa

from models.store.queries.blobs import Blobs
from models.store.queries.sales import SalesQueries
from models.store.records import ShopId
from models.store.states import FileState
from models.store.tables.sales import sales_import
from models.values.packing import pack, unpack
from models.values.sale_parts import NEVER, SalePart
from models.values.sales import Sales

_SALES = tuple(field.name for field in fields(Sales))
Mark = tuple[tuple[str, str | None], ...]  # which imports there are, each with the id of what it said


class Parts:
    """Queries over what imports said."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection
        self._blobs = Blobs(connection)

    def mark(self, shop: ShopId) -> Mark:
        """Changes whenever an import was read: what was joined before is then out of date."""
        told = sa.or_(sales_import.c.part_blob_id.is_not(None), sales_import.c.state == FileState.READY.value)
        query = sa.select(sales_import.c.id, sales_import.c.part_blob_id).where(sales_import.c.shop_id == shop, told)
        rows = self._connection.execute(query.order_by(sales_import.c.number))
        return tuple((row.id, row.part_blob_id) for row in rows)

    def save(self, shop: ShopId, import_id: str, part: SalePart) -> None:
        """Keep what an import said, in place of what it said before."""
        mine = sa.and_(sales_import.c.shop_id == shop, sales_import.c.id == import_id)
        old = self._connection.execute(sa.select(sales_import.c.part_blob_id).where(mine)).scalar_one()
        columns = {name: getattr(part.sales, name) for name in _SALES}
        columns |= {"role": part.role, "piece": part.piece, "made_on": np.array([part.made_on])}
        made, _, _ = self._blobs.add(shop, [pack(columns)])
        self._connection.execute(sales_import.update().where(mine).values(part_blob_id=made))
        if old is not None:
            self._blobs.delete(shop, [old])

    def load(self, shop: ShopId, import_id: str, blob_id: str | None) -> SalePart:
        """What an import said; one that was read before parts were kept says the sales it brought."""
        if blob_id is None:
            return SalePart.plain(SalesQueries(self._connection).load(shop, (import_id,)))
        columns = unpack(self._blobs.read(shop, blob_id))
        blank = vars(Sales.blank(len(columns["role"])))  # parts kept before a column was known do not have it
        sales = Sales(**{name: columns.get(name, blank[name]) for name in _SALES})
        made_on = columns["made_on"][0] if "made_on" in columns else NEVER
        return SalePart(sales, columns["role"], columns["piece"], made_on)
