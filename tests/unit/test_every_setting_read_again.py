"""No setting is ignored silently: reading it again is exact, or a sentence says what is kept or not applied."""

import json
from typing import Any

import pytest
from stored_lot import stored_lot, under

from models.appraisal.held import reread
from models.appraisal.read_again import read_again
from models.values.changed import changed_keys, with_setting
from models.values.fields import Declared, Unit
from models.values.given import read_given
from models.values.settings import REGISTRY

STORED = stored_lot()
WAS = under().settings
EXACT = {
    *(f"goals.{name}" for name in ("return_on_cash", "confidence", "loss_limit", "loss_chance", "cash_limit")),
    *("goals.max_weeks_to_clear", "goals.max_unsold_units", "lot.pallets", "lot.current_bid"),
}
KEYS = [key for key in REGISTRY if key != "currency"]  # another currency is refused
WITHOUT_ENDS = (Unit.CHOICE, Unit.TEXT, Unit.TEXTS, Unit.DATE, Unit.MOMENT, Unit.STEPS)
NUMBERS = [key for key in KEYS if REGISTRY[key].unit not in WITHOUT_ENDS]
OTHER: dict[Unit, Any] = {
    Unit.MONEY: "3.25", Unit.STEPS: [["0", "5"], ["100", "10"]], Unit.RIVALS: "many", Unit.TEXT: "somewhere",
    Unit.TEXTS: ["lamp"], Unit.DATE: "2026-08-01", Unit.MOMENT: "2026-07-09T10:00:00Z",
}  # fmt: skip


def is_exact(key: str) -> bool:
    return key.startswith("buying.") or key in EXACT


def other(declared: Declared) -> Any:
    """A legal value that is not the default."""
    if declared.unit is Unit.CHOICE:
        return next(choice for choice in declared.choices if choice != declared.default)
    if declared.choices:
        return [declared.choices[0]]
    if declared.unit in OTHER:
        return OTHER[declared.unit]
    return min(0.515, declared.most or 1.0) if declared.unit is Unit.SHARE else 21.5


@pytest.mark.parametrize("key", KEYS)
def test_a_changed_setting_is_exact_or_told(key: str) -> None:
    value = other(REGISTRY[key])
    group, name = key.split(".")
    read_given({group: {name: value}})
    now = with_setting(WAS, key, value)
    assert changed_keys(WAS, now) == (key,)
    held = reread(STORED, WAS, now).held
    assert [one.split(":")[0] for one in held] == ([] if is_exact(key) else [key])


@pytest.mark.parametrize("key", NUMBERS)
@pytest.mark.parametrize("end", ["least", "most"])
def test_the_ends_of_what_is_legal_are_read_without_a_fault(key: str, end: str) -> None:
    declared = REGISTRY[key]
    bound = getattr(declared, end)
    if bound is None:
        bound = -1e10 if end == "least" else 1e10
    bound = min(bound, 1000.0) if declared.unit is Unit.RIVALS else bound
    group, name = key.split(".")
    settings = under({group: {name: bound}}).settings
    told = read_again(STORED, WAS, settings)
    json.dumps(told, allow_nan=False)
    assert told["bid_ceiling"]["verdict"] in ("bid", "pass")
    assert len(told["bid_curve"]) >= 5
