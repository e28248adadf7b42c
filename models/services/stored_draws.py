"""The stored draws of an evaluation, unpacked.  Evaluations never change, so the last few are kept in memory."""

from __future__ import annotations

from collections import OrderedDict
from threading import Lock
from typing import TYPE_CHECKING
from zipfile import BadZipFile

from models.store.records import ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Conflict, NotFound
from models.values.streams import DRAW_FORMAT

if TYPE_CHECKING:
    from models.appraisal.stored import Stored

MOST_KEPT = 8  # some MB each
OLDER = "This lot was valued by an earlier version of the service: evaluate it again, then ask."


class Kept:
    """Draws by shop and evaluation, the least recently read one given up first."""

    def __init__(self) -> None:
        self._draws: OrderedDict[tuple[ShopId, str], Stored] = OrderedDict()
        self._lock = Lock()

    def get(self, key: tuple[ShopId, str]) -> Stored | None:
        """What was read before, if it is still here."""
        with self._lock:
            if key in self._draws:
                self._draws.move_to_end(key)
            return self._draws.get(key)

    def put(self, key: tuple[ShopId, str], stored: Stored) -> None:
        """Keep it, and give up the one that was not read for longest."""
        with self._lock:
            self._draws[key] = stored
            while len(self._draws) > MOST_KEPT:
                self._draws.popitem(last=False)


_KEPT = Kept()


def stored_draws(work: UnitOfWork, shop: ShopId, evaluation_id: str) -> Stored:
    """The draws of one evaluation; Conflict where they are of an older form, NotFound where there are none."""
    from models.appraisal.stored import Stored

    if work.evaluations.draw_format(shop, evaluation_id) != DRAW_FORMAT:
        raise Conflict(OLDER)
    kept = _KEPT.get((shop, evaluation_id))
    if kept is not None:
        return kept
    try:
        stored = Stored.from_bytes(work.evaluations.components(shop, evaluation_id))
    except (NotFound, ValueError, KeyError, BadZipFile, EOFError) as error:
        raise Conflict(OLDER) from error
    _KEPT.put((shop, evaluation_id), stored)
    return stored
