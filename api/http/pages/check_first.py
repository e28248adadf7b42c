"""Which lines are worth a look before any other?  Those with a caution or worth looking up, the dearest first."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final

from api.http.pages.line_view import HELPS_FROM
from models.services.read_lines import dearest_lines
from models.store.records import EvaluationRecord, ShopRecord
from models.store.unit_of_work import UnitOfWork

FIRST_SHOWN: Final = 5
LOOK_IT_UP: Final = "a sold price would settle much"


@dataclass(frozen=True)
class ToCheck:
    """A line, and in a few words what to check."""

    line: Mapping[str, Any]
    why: str


def check_first(work: UnitOfWork, held: ShopRecord, lot_id: str, evaluation: EvaluationRecord) -> tuple[ToCheck, ...]:
    """The few that bring most."""
    document = evaluation.document
    looked_up = {one["line"] for one in document.get("research_first", ()) if one["spread_removed"] >= HELPS_FROM}
    numbers = list(dict.fromkeys([*looked_up, *_cautioned(document.get("cautions", ()))]))
    lines = dearest_lines(work, held.id, lot_id, numbers, FIRST_SHOWN)
    return tuple(ToCheck(line, _why(line, is_unknown=line["no"] in looked_up)) for line in lines)


def _cautioned(cautions: Iterable[Mapping[str, Any]]) -> Iterator[int]:
    for one in cautions:
        yield from one.get("lines") or ([one["line"]] if one.get("line") else [])


def _why(line: Mapping[str, Any], *, is_unknown: bool) -> str:
    begins = (one["what"].partition(":")[0].rstrip(".") for one in line.get("cautions", ()))
    said = dict.fromkeys(text[:1].lower() + text[1:] for text in begins)
    return "; ".join([*said, *([LOOK_IT_UP] if is_unknown else [])])
