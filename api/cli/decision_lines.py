"""What else does an evaluation say about the decision: payback, actions, what would change a pass, what it assumes?"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from models.services.answer_words import payback_words, steps_words, to_bid_words, two_ceilings
from models.values.changed import category_of
from models.values.fields import Declared, Unit
from models.values.setting_names import heading
from models.values.settings import REGISTRY

ASSUMED_TOLD = 2
ACTIONS = {"bundled": "in packs", "skipped": "not worth a listing", "never": "not sold here"}
ORIGINS = {"learned": "learned from your sales", "assumed": "assumed"}
Amount = Callable[[str], str]  # an amount with its currency
Told = Mapping[str, Any]


def decision_parts(document: Told, amount: Amount) -> Iterator[tuple[str, str]]:
    """Named sentences, each only where the evaluation tells it."""
    held = {one["key"]: one["value"] for one in document.get("assumptions", ())}
    left = document["bid_ceiling"].get("steps_left")
    if left and left["steps"]:
        steps = f"{left['steps']:,} bid steps" if left["steps"] > 1 else "1 bid step"
        yield ("Steps left", f"{steps} above the bid that stands; one adds {amount(left['next_step_cash'])}.")
    elif none_left := steps_words(document["bid_ceiling"], document.get("lot", {}).get("current_bid"), amount):
        yield ("Steps left", none_left)
    change = document["bid_ceiling"].get("what_would_change")
    if change:
        yield ("To bid", f"one of these alone would make it a bid: {_changes(change, amount)}.")
    weeks = (document.get("at_ceiling") or {}).get("payback_weeks")
    if weeks:
        yield ("Payback", payback_words(weeks, f"{held.get('goals.horizon_weeks', 0):g} weeks"))
    if document.get("actions"):
        yield ("Actions", _actions(document["actions"]))
    yield from _assumptions(document.get("assumptions", ()), amount)


def setting_text(value: Any, key: str, amount: Amount) -> str:
    """A setting's value as this command writes it."""
    declared = _declared(key)
    if declared.unit is Unit.SHARE:
        return f"{float(value) * 100:.2f}".rstrip("0").rstrip(".") + "%"
    if declared.unit is Unit.MONEY:
        return amount(value)
    unit = declared.unit.value if declared.unit in (Unit.WEEKS, Unit.DAYS, Unit.HOURS, Unit.MINUTES) else ""
    return f"{value:g} {unit}".strip() if isinstance(value, int | float) else str(value)


def _declared(key: str) -> Declared:
    return REGISTRY[key if category_of(key) is None else f"selling.{key.rpartition('.')[2]}"]


def _changes(changes: Sequence[Told], amount: Amount) -> str:
    return "; ".join(to_bid_words(one, lambda value, key: setting_text(value, key, amount)) for one in changes)


def _actions(actions: Told) -> str:
    others = "".join(f", {actions[name]:,} {word}" for name, word in ACTIONS.items() if actions.get(name))
    lines = "line" if actions["listed"] == 1 else "lines"
    return f"{actions['listed']:,} {lines} to list singly{others}."


def _assumptions(assumptions: Sequence[Told], amount: Amount) -> Iterator[tuple[str, str]]:
    """The two that move the ceiling most, then what can be asked before bidding."""
    widest = [one for one in assumptions if one.get("ceiling_low") != one.get("ceiling_high")][:ASSUMED_TOLD]
    if widest:
        yield ("Assumes", " ".join(f"{_assumption(one, amount)}." for one in widest))
    asked = [two_ceilings(one, lambda value, key: setting_text(value, key, amount), amount) for one in assumptions]
    if any(asked):
        yield ("Ask first", " ".join(one for one in asked if one))


def _assumption(one: Told, amount: Amount) -> str:
    value, low, high = (setting_text(one[name], one["key"], amount) for name in ("value", "low", "high"))
    return (
        f"{heading(one['key'])}: {value}, {ORIGINS.get(one['source'], one['source'])}; between {low} and {high} the "
        f"ceiling lies between {amount(one['ceiling_low'])} and {amount(one['ceiling_high'])}"
    )
