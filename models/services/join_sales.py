"""Make a shop's sold history from what all its files say: the same table whatever came first."""

from dataclasses import dataclass

import numpy as np

from models.store.records import ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.problems import Caution
from models.values.sale_parts import COUNTED, LISTINGS, SOLD, SalePart
from models.values.sales import Sales


@dataclass(frozen=True)
class JoinedSales:
    """All sales of a shop with one import read anew; good while `mark` holds."""

    mark: tuple[tuple[str, str | None], ...]
    sales: Sales
    origins: list[str]
    pieces: list[int]
    added: int
    already_known: int
    cautions: tuple[Caution, ...]


def join_sales(work: UnitOfWork, shop: ShopId, import_id: str, part: SalePart) -> JoinedSales:
    """Join what an import says with all the others; nothing is written."""
    from models.intake.sales.history_cautions import joined_cautions  # only workers join files
    from models.intake.sales.joined import join_history

    mark = work.parts.mark(shop)
    ids = work.imports.numbered(shop, (*(one for one, _ in mark), import_id))
    blobs = dict(mark)
    parts = [part if one == import_id else work.parts.load(shop, one, blobs[one]) for one in ids]
    joined = join_history(parts)
    origins = [ids[place] for place in joined.part.tolist()]
    added = origins.count(import_id)
    rows = int(np.isin(part.role, (SOLD, COUNTED, *LISTINGS)).sum())
    return JoinedSales(
        mark, joined.sales, origins, joined.piece.tolist(), added, max(rows - added, 0), joined_cautions(joined)
    )


def keep_joined(work: UnitOfWork, shop: ShopId, import_id: str, part: SalePart, joined: JoinedSales) -> JoinedSales:
    """Write it; joined again if another import was read meanwhile."""
    work.shops.lock(shop)
    if work.parts.mark(shop) != joined.mark:
        joined = join_sales(work, shop, import_id, part)
    for other, blob in joined.mark:
        if blob is None and other != import_id:  # read before parts were kept: its rows may change from now on
            work.parts.save(shop, other, work.parts.load(shop, other, None))
    work.parts.save(shop, import_id, part)
    work.sales.keep(shop, joined.origins, joined.pieces, joined.sales)
    work.imports.save_read(shop, import_id, joined.added, joined.already_known)
    return joined
