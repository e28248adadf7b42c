"""What is said of the seller's week of listing?  In sentences that the page and the command line share."""

from collections.abc import Mapping
from typing import Any


def pace_words(document: Mapping[str, Any]) -> str:
    """The hours that the seller gives beside those that listing dates show; blank where these tell nothing."""
    pace = document.get("pace")
    return "" if not pace else " ".join([_measured(pace), *_reservations(pace)])


def minutes_words(document: Mapping[str, Any]) -> str:
    """What the listing minutes of an evaluation rest on; blank where an older one does not say."""
    told = document.get("effort")
    if told is None:
        return ""
    timings, entries = told["timings"], told["work_log_entries"]
    log = f"{entries:,} {'entry' if entries == 1 else 'entries'} of your work log"
    parts = [f"{timings:,} timed {'row' if timings == 1 else 'rows'} of your sold history"] if timings else []
    parts += [f"{_share(told)}{log}"] if entries else []
    if not parts:
        return (
            "Listing minutes are not learned from you yet: your files time fewer than 5 listings, and your work log"
            " counts fewer than 20 items."
        )
    return f"Listing minutes rest on {' and '.join(parts)}.{_left_out(told)}"


def _share(told: Mapping[str, Any]) -> str:
    """How much of what is known of the minutes a work log adds to timed rows."""
    share = told.get("work_log_share")
    return "" if share is None else f"for {'less than 1%' if share < 0.01 else f'{share:.0%}'} on "


def _left_out(told: Mapping[str, Any]) -> str:
    if not (left := told.get("work_log_left_out")):
        return ""
    one = left == 1
    return (
        f" {left:,} {'entry' if one else 'entries'} of your work log {'is' if one else 'are'} not counted:"
        f" {'it tells' if one else 'they tell'} {told['work_log_times']:.2g} times as many minutes an item as those"
        " rows. See which of the two leaves work out, or counts other work."
    )


def _measured(pace: Mapping[str, Any]) -> str:
    stated = pace.get("stated_hours")
    says = "Your" if stated is None else f"You say {stated:g} {'hour' if stated == 1 else 'hours'} a week; your"
    return (
        f"{says} last {pace['weeks']} weeks with any listing were {pace['units_per_week']:g} units a week, about "
        f"{pace['hours_per_week']:.3g} hours at {pace['minutes_each']:.3g} minutes a unit."
    )


def _reservations(pace: Mapping[str, Any]) -> list[str]:
    """What the measure leaves out or takes for granted."""
    said = []
    if pace["weeks_left_out"]:
        one = pace["weeks_left_out"] == 1
        said.append(
            f"{pace['weeks_left_out']} {'week' if one else 'weeks'} without any {'is' if one else 'are'} left out."
        )
    if not pace["minutes_learned"]:
        said.append("The minutes are assumed: no timing and no entry of your work log tells them yet.")
    if pace["sold_only"]:
        said.append("Your files show sold listings only, so you listed more than that.")
    if pace.get("stated_far_above"):
        said.append(f"Hardly any of those weeks held more than {pace['busy_week_hours']:.3g} hours.")
    return said
