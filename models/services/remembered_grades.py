"""What a source's grades mean is said once: "B" of one source is not "B" of another, whatever their headers are."""

import hashlib
from collections.abc import Mapping

from models.store.records import ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.questions import GRADE

_KIND = "grades"


def grades_of(work: UnitOfWork, shop: ShopId, source: str | None) -> dict[str, str]:
    """What this shop said of a source's grades, as keys of a mapping; nothing where the source is not named."""
    return work.remembered_columns.get(shop, _KIND, _mark(source)) if source else {}


def remember_grades(work: UnitOfWork, shop: ShopId, source: str | None, said: Mapping[str, str]) -> None:
    """Keep what was said of a source's grades beside what was said before."""
    told = {key: meaning for key, meaning in said.items() if key.startswith(GRADE)}
    if source and told:
        work.remembered_columns.put(shop, _KIND, _mark(source), grades_of(work, shop, source) | told)


def without_grades(said: Mapping[str, str]) -> dict[str, str]:
    """The rest of a mapping: what belongs to the file's headers."""
    return {key: value for key, value in said.items() if not key.startswith(GRADE)}


def _mark(source: str) -> str:
    return hashlib.sha256(" ".join(source.split()).casefold().encode()).hexdigest()
