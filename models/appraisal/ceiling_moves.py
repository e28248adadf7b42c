"""How far did each changed setting alone move the ceiling?  The same draws read again with that one as it was."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from models.appraisal.held import reread
from models.appraisal.judge import read_ceiling
from models.appraisal.stored import Stored
from models.values.changed import category_of, with_setting
from models.values.settings import REGISTRY, Settings

NOT_APPLIED = ": not applied"  # what `held` says of a key whose effect no stored draw can tell


@dataclass(frozen=True)
class Move:
    """The ceiling as it is less the ceiling with the setting as it was [minor units].

    `whole` is as it is bid, 0 on pass; `unrounded` tells two apart that move no bid step.
    """

    whole: float
    unrounded: float


def ceiling_moves(stored: Stored, now: Settings, before: Mapping[str, Any]) -> dict[str, Move]:
    """Moves by key; `before` holds what a key was, as documents write it.  A key that draws cannot tell is left out."""
    ceiling = read_ceiling(stored, now)
    found = {}
    for key, plain in before.items():
        former = _with_former(now, key, plain)
        if former is None:
            continue
        read = reread(stored, now, former)
        if any(told.startswith(key + NOT_APPLIED) for told in read.held):
            continue
        then = read_ceiling(read.stored, former)
        found[key] = Move(ceiling.amount - then.amount, ceiling.unrounded - then.unrounded)
    return found


def _with_former(now: Settings, key: str, plain: Any) -> Settings | None:
    """The settings with one key as it was; None where that cannot be said."""
    category = category_of(key)
    if category is not None and plain is None:
        cost = key.rpartition(".")[2]
        own = {name: value for name, value in now.by_category.get(category, {}).items() if name != cost}
        return replace(now, by_category={**now.by_category, category: own})
    if category is None and (key not in REGISTRY or (plain is None and not REGISTRY[key].optional)):
        return None
    return with_setting(now, key, plain)
