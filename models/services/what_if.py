"""Read a lot's decision under other settings, from the draws of its current evaluation; nothing is saved."""

from collections.abc import Mapping
from typing import Any

from models.services.stored_draws import stored_draws
from models.store.records import ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.categories import plain_path
from models.values.errors import Conflict, Rejected
from models.values.given import Given, read_given
from models.values.in_force import in_force


def what_if(work: UnitOfWork, shop: ShopId, lot_id: str, settings: Mapping[str, Any]) -> dict[str, Any]:
    """The decision part of the answer; `settings` go before all that the evaluation was made with.

    Null takes back the lot's own value: what its source, the shop or the history say of it then holds again.

    `held` names what was kept as evaluated.  Conflict if there is no evaluation to read again, Rejected for unusable
    settings or another currency.
    """
    from models.appraisal.read_again import read_again

    lot = work.lots.require(shop, lot_id)
    asked = read_given(settings)
    if lot.evaluation_id is None:
        raise Conflict("This lot has no evaluation yet: there is nothing to read again.")
    stored = stored_draws(work, shop, lot.evaluation_id)
    _, frozen = work.evaluations.frozen(shop, lot.evaluation_id)
    given, learned = list(frozen.get("given", ())), frozen.get("learned", {})
    was = in_force(given, learned).settings
    if asked.get("currency", was.currency) != was.currency:
        raise Rejected(
            f"This lot counts in {was.currency}; amounts are never converted.", {"currency": "not the lot's"}
        )
    lots = [_without(one, settings) for one in given[:1]]  # lot, source, shop: the last two keep their word
    now = in_force([asked, *lots, *given[1:]], learned).settings
    return {"evaluation_id": lot.evaluation_id} | read_again(stored, was, now)


def _without(given: Given, asked: Mapping[str, Any]) -> Given:
    """A document less the keys that were taken back with null."""
    kept: Given = {}
    for group, content in given.items():
        taken = asked.get(group)
        kept[group] = _less(content, taken) if isinstance(content, Mapping) and isinstance(taken, Mapping) else content
    return kept


def _less(content: Mapping[str, Any], taken: Mapping[str, Any]) -> Given:
    kept: Given = {}
    alike = {plain_path(name): value for name, value in taken.items()}  # a category is the same in any spelling
    for name, value in content.items():
        inner = alike.get(plain_path(name))
        if isinstance(value, Mapping) and isinstance(inner, Mapping):
            kept[name] = _less(value, inner)
        elif plain_path(name) not in alike or inner is not None:
            kept[name] = value
    return kept
