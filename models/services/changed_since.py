"""What changed against a lot's previous evaluation, in words that a seller knows."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from models.store.queries.evaluations import NewEvaluation
from models.store.records import ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.in_force import in_force
from models.values.money import to_minor, written
from models.values.setting_names import heading

if TYPE_CHECKING:
    from models.appraisal.ceiling_moves import Move

Change = dict[str, Any]  # {what, from, to}, with the key, the line or the column that it is about
CEILING = "bid ceiling"


@dataclass(frozen=True)
class Worked:
    """One evaluation with what it was asked."""

    document: Mapping[str, Any]
    frozen: Mapping[str, Any]
    model_version: int


def with_changes(work: UnitOfWork, shop: ShopId, lot_id: str, new: NewEvaluation) -> NewEvaluation:
    """The evaluation about to be saved, telling what changed against the lot's current one; a first one: nothing."""
    current = work.lots.require(shop, lot_id).evaluation_id
    if current is None:
        return new
    before, (number, frozen) = work.evaluations.require(shop, current), work.evaluations.frozen(shop, current)
    now = Worked(new.document, new.frozen, new.model_version)
    line_of = {one["source_row"]: one["no"] for one in new.lines}
    found = list(changes(Worked(before.document, frozen, number), now, line_of))
    found = ranked(found, _moves(new, found), new.document["lot"]["currency"])
    explain = {**new.document.get("explain", {}), "changed": found}
    return replace(new, document={**new.document, "explain": explain})


def _moves(new: NewEvaluation, found: Sequence[Change]) -> Mapping[str, "Move"]:
    """What the new draws tell of each changed setting."""
    from models.appraisal.ceiling_moves import ceiling_moves
    from models.appraisal.stored import Stored

    before = {one["key"]: one["from"] for one in found if "key" in one}
    if not before:
        return {}
    settings = in_force(new.frozen.get("given", ()), new.frozen.get("learned", {})).settings
    return ceiling_moves(Stored.from_bytes(new.components), settings, before)


def ranked(found: Sequence[Change], moves: Mapping[str, "Move"], currency: str) -> list[Change]:
    """The ceiling first, then what moved it most; what cannot be read alone stands where the rest would.

    `moves` is added to a change that can be read: how much higher the ceiling is than with that one as it was.
    """
    told = [one | _told(moves.get(one.get("key", "")), currency) for one in found]
    rest = abs(_ceiling_move(found, currency) - sum(move.whole for move in moves.values()))

    def size(change: Change) -> tuple[bool, float, float]:
        move = moves.get(change.get("key", ""))
        far = (rest, 0.0) if move is None else (abs(move.whole), abs(move.unrounded))
        return (not _is_ceiling(change), -far[0], -far[1])

    return sorted(told, key=size)


def _told(move: "Move | None", currency: str) -> Change:
    return {} if move is None else {"moves": written(move.whole, currency)}


def _ceiling_move(found: Sequence[Change], currency: str) -> float:
    return sum(to_minor(one["to"], currency) - to_minor(one["from"], currency) for one in found if _is_ceiling(one))


def _is_ceiling(change: Change) -> bool:
    return bool(change["what"] == CEILING)


def changes(before: Worked, now: Worked, line_of: Mapping[int, int]) -> Iterator[Change]:
    """The ceiling first, then what may have moved it; `line_of`: line numbers by the manifest's row."""
    one, other = before.document, now.document
    yield from _differing(CEILING, one["bid_ceiling"]["amount"], other["bid_ceiling"]["amount"])
    yield from _differing("model version", before.model_version, now.model_version)
    yield from _differing("day", one.get("as_of"), other.get("as_of"))
    if "mapping" in before.frozen:  # evaluations did not always keep it
        for column, header, then in _pairs(before.frozen["mapping"], now.frozen["mapping"]):
            yield from _differing("column of the manifest", header, then, column=column)
    yield from _lines(before.frozen.get("edits", ()), now.frozen.get("edits", ()), line_of, other["lot"]["currency"])
    for key, value, then in _pairs(_in_force(one), _in_force(other)):
        yield from _differing(heading(key), value, then, key=key)
    yield from _differing("seed", one.get("seed"), other.get("seed"))


def _lines(before: Any, now: Any, line_of: Mapping[int, int], currency: str) -> Iterator[Change]:
    one, other = ({edit["row"]: edit for edit in edits} for edits in (before, now))
    for row, edit, then in _pairs(one, other):
        about = {"line": line_of[row]} if row in line_of else {"row": row}
        prices, more = _prices(edit, currency), _prices(then, currency)
        yield from _differing("looked-up prices", prices, more, **about)
        yield from _differing("what to do with it", (edit or {}).get("action"), (then or {}).get("action"), **about)


def _prices(edit: Mapping[str, Any] | None, currency: str) -> list[str]:
    return [written(price, currency) for price in (edit or {}).get("looked_up", ())]


def _in_force(document: Mapping[str, Any]) -> dict[str, Any]:
    return {one["key"]: one["value"] for one in document.get("assumptions", ())}


def _pairs(before: Mapping[Any, Any], now: Mapping[Any, Any]) -> Iterator[tuple[Any, Any, Any]]:
    """Every key of either with both values, None where it is missing."""
    for key in dict.fromkeys((*before, *now)):
        yield key, before.get(key), now.get(key)


def _differing(what: str, before: Any, now: Any, **about: Any) -> Iterator[Change]:
    if before != now:
        yield {"what": what, **about, "from": before, "to": now}
