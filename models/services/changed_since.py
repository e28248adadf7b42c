"""What changed against a lot's previous evaluation, in words that a seller knows."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from models.store.queries.evaluations import NewEvaluation
from models.store.records import ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.money import written
from models.values.setting_names import heading

Change = dict[str, Any]  # {what, from, to}, with the key, the line or the column that it is about


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
    explain = {**new.document.get("explain", {}), "changed": found}
    return replace(new, document={**new.document, "explain": explain})


def changes(before: Worked, now: Worked, line_of: Mapping[int, int]) -> Iterator[Change]:
    """The ceiling first, then what may have moved it; `line_of`: line numbers by the manifest's row."""
    one, other = before.document, now.document
    yield from _differing("bid ceiling", one["bid_ceiling"]["amount"], other["bid_ceiling"]["amount"])
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
