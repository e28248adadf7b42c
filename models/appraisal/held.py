"""What is kept as evaluated when a decision is read again under other settings?  Told key by key, in plain words."""

from dataclasses import dataclass, replace

from models.appraisal.scaled import MINUTES_OF, scaled, usable_share
from models.appraisal.stored import Stored
from models.decide.arrivals import Fate
from models.values.changed import category_of, changed_keys, value_of
from models.values.settings import Settings

_ACTIONS = "which lines are listed, bundled or skipped"
_PACKS = "how many units a pack holds"
_LEFT = "of which lines the leftovers bring anything"
_TIME = "when each line is listed and how soon it sells"
_STRAY = "how far the true minutes may lie from these"
_LUCK = "how far the true share may lie from this"
_COSTS = (
    "fee_share",
    "fixed_fee",
    "advertising_share",
    "packing",
    "postage_each",
    "refund_share",
    "refund_loss_share",
)
_KEPT: dict[str, tuple[str, ...]] = {
    "goals.hourly_pay": (_ACTIONS,),
    "goals.yearly_cost_of_cash": (_ACTIONS, _TIME),
    "lot.missing_share": (_ACTIONS, _TIME, _LUCK),
    "lot.dead_share": (_ACTIONS, _TIME, _LUCK),
    "lot.dead_untested_share": (_ACTIONS, _TIME, _LUCK),
    "lot.arrives_on": (_TIME,),
    "effort.minutes_first": (_ACTIONS, _TIME, _STRAY),
    "effort.minutes_repeat": (_ACTIONS, _TIME, _STRAY),
    "effort.minutes_used_unit": (_ACTIONS, _TIME, _STRAY),
    "effort.minutes_sort": (_STRAY,),
    "effort.minutes_pack": (_ACTIONS, _STRAY),
    "backlog.hours_per_week": (_TIME,),
    "backlog.waiting_units": (_TIME,),
    "backlog.weekly_intake_units": (_TIME,),
    "selling.leftover_share": (_ACTIONS,),
    "selling.bundle_discount": (_ACTIONS, _PACKS),
} | {f"selling.{cost}": (_ACTIONS, _LEFT) for cost in _COSTS}
_NOT_APPLIED = {
    "lot.closes_at": "the day of payment stays",
    "goals.horizon_weeks": "what is sold and what is left over by the former horizon stays",
    "lot.source": "a source's own terms are only read when the lot is evaluated",
    "selling.days_to_sell": "how soon goods sell stays",
    "selling.never_sells_share": "how many units sell stays",
    "never.brands": "which lines are never sold here stays",
    "never.categories": "which lines are never sold here stays",
    "never.words": "which lines are never sold here stays",
    "never.listed_anyway": "which lines are never sold here stays",
}
_PACE = ("selling.days_to_sell", "selling.never_sells_share")
_FATE_OF = {"lot.dead_share": Fate.TESTED, "lot.dead_untested_share": Fate.UNTESTED, "lot.missing_share": Fate.SALVAGE}


@dataclass(frozen=True)
class Reread:
    """Stored sums as other settings read them, and one sentence for each key that would have moved more."""

    stored: Stored
    held: tuple[str, ...]


def reread(stored: Stored, was: Settings, now: Settings) -> Reread:
    """Carry stored sums from the settings they were drawn under to others; cash by week only where it still holds."""
    keys = changed_keys(was, now)
    told = [_told(key, stored, was) for key in keys]
    read = scaled(stored, was, now)
    if any(_moves_cash(key) for key in keys):
        read = replace(read, weeks=None)
    return Reread(read, tuple(one for one in told if one is not None))


def _moves_cash(key: str) -> bool:
    """Whether a key moves the cash of a week; weeks are not kept by row, so what moves them is not told."""
    return key in _FATE_OF or key == "goals.horizon_weeks" or (key.startswith("selling.") and key not in _PACE)


def _told(key: str, stored: Stored, was: Settings) -> str | None:
    """A sentence on one changed key; None where reading it again is exact."""
    idle = _idle(key, stored, was)
    if idle is not None:
        return f"{key}: no effect, because {idle}."
    reason = _not_applied(key, stored, was)
    if reason is not None:
        return f"{key}: not applied, {reason}; evaluate the lot again to apply it."
    name = key if category_of(key) is None else f"selling.{key.rpartition('.')[2]}"
    kept = _KEPT.get(name)
    return None if kept is None else f"{key}: keeps {'; '.join(kept)}."


def _idle(key: str, stored: Stored, was: Settings) -> str | None:
    """Why a key would change nothing in a new evaluation either."""
    if key in _PACE and not stored.pace_declared:
        return "your history tells how soon goods sell"
    category = category_of(key)
    known = category in was.by_category  # so every line under it has a row of its own
    if known and category not in stored.components.cost_key.tolist():
        return "no line of this lot counts under that category"
    return None


def _not_applied(key: str, stored: Stored, was: Settings) -> str | None:
    category = category_of(key)
    if category is not None:
        known = category in stored.components.cost_key.tolist()
        return None if known else "no line of this lot is kept apart under that category"
    name = key.partition(".")[2]
    nothing = "there was nothing to scale"
    if name in MINUTES_OF and value_of(was, key) <= 0:
        return nothing
    if key in _FATE_OF and usable_share(was.lot, _FATE_OF[key]) <= 0:
        return nothing
    if key == "goals.yearly_cost_of_cash" and was.goals.yearly_cost_of_cash <= 0:
        return nothing
    return _NOT_APPLIED.get(key)
