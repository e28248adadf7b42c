"""What does the seller say of their hours, and what do their listing dates show?  Both, side by side."""

from collections.abc import Iterator, Mapping
from typing import Any

from models.estimate.pace import Pace
from models.values.in_force import InForce
from models.values.problems import Caution

HOURS = "backlog.hours_per_week"


def pace_document(pace: Pace) -> dict[str, Any]:
    """The measured week, as it is told and as a model version's facts keep it."""
    return {
        "weeks": pace.weeks,
        "weeks_left_out": pace.left_out,
        "since": pace.since,
        "until": pace.until,
        "units_per_week": round(pace.units_per_week, 1),
        "minutes_each": round(pace.minutes_each, 2),
        "minutes_learned": pace.minutes_learned,
        "hours_per_week": pace.hours_per_week,
        "busy_week_hours": pace.busy_hours,
        "sold_only": pace.sold_only,
    }


def beside_stated(told: Mapping[str, Any], stated: float | None) -> dict[str, Any]:
    """The measured week beside the hours that the seller gave, if they did.

    Far above: more than nine in ten of those weeks held, in doubt about the minutes too.  A file of sold listings only
    shows too few, so it accuses nobody.
    """
    if stated is None:
        return dict(told)
    far = stated > told["busy_week_hours"] and not told["sold_only"]
    return {**told, "stated_hours": stated, "stated_far_above": far}


def pace_cautions(pace: Pace | None, held: InForce) -> Iterator[Caution]:
    """Hours that the dates speak against."""
    told = {} if pace is None else beside_stated(pace_document(pace), stated_hours(held))
    if told.get("stated_far_above"):
        yield Caution(
            f"You say {told['stated_hours']:g} hours of listing a week; your last {told['weeks']} weeks with any"
            f" listing were {told['units_per_week']:g} units a week, about {told['hours_per_week']:.3g} hours, and"
            f" hardly any of them held more than {told['busy_week_hours']:.3g}.",
            "Check the hours you gave: with fewer, this lot waits longer and your backlog clears later.",
        )


def stated_hours(held: InForce) -> float | None:
    """Hours of listing a week as the seller gave them, None where they did not."""
    return held.settings.backlog.hours_per_week if held.origins[HOURS] == "yours" else None
