"""What does an answer say in sentences that the page and the command line share?  Amounts arrive written."""

from collections.abc import Callable, Mapping
from typing import Any, Final

from models.values.changed import category_of
from models.values.settings import REGISTRY

Written = Callable[[Any, str], str]  # a document's value under a key, as whoever speaks writes it
UNKNOWN: Final = ("buying.freight", "buying.tax_rate")  # what a seller can ask the auction house before bidding
TO_BID: Final[Mapping[str, str]] = {
    "goals.return_on_cash": "if you ask for a return of {to} on your cash instead of {was}",
    "goals.confidence": "if {to} instead of {was} is sure enough for you that the cash comes back",
    "goals.hourly_pay": "if you count {to} instead of {was} for an hour of your own",
    "goals.loss_limit": "if you can bear to lose {to} instead of {was}",
    "goals.loss_chance": "if you accept a chance of {to} instead of {was} to lose more than your limit",
    "goals.cash_limit": "if you put up to {to} into it instead of {was}",
    "goals.max_weeks_to_clear": "if your backlog may take {to} to clear instead of {was}",
    "goals.max_unsold_units": "if {to} units may wait instead of {was}",
    "backlog.hours_per_week": "if you list for {to} a week instead of {was}",
    "backlog.weekly_intake_units": "if {to} other units come in each week instead of {was}",
    "buying.premium": "if the buyer's premium is {to} instead of {was}",
    "buying.tax_rate": "if you pay {to} sales tax instead of {was}",
    "buying.payment_surcharge": "if the way you pay costs {to} instead of {was}",
    "buying.freight": "if freight is {to} a pallet instead of {was}",
    "buying.other_fees": "if the other fees are {to} instead of {was}",
    "lot.current_bid": "if the bid stands at {to} instead of {was}",
}


def heading(key: str) -> str:
    """A setting's own sentence up to its first colon or semicolon, with the category it is about."""
    category = category_of(key)
    declared = REGISTRY.get(key if category is None else f"selling.{key.rpartition('.')[2]}")
    said = key if declared is None else declared.says.partition(";")[0].partition(":")[0].rstrip(".")
    return said if category is None else f"{said}, {category}"


def payback_words(weeks: Mapping[str, Any], horizon: str) -> str:
    """When the cash is back, half of the time and at the slow end; `horizon` is written with its unit."""
    half, slow = weeks.get("p50"), weeks.get("p90")
    if half is None:
        return f"Half of the time or more your cash is not back within {horizon}."
    late = f"not within {horizon}" if slow is None else f"not before week {slow:g}"
    return f"Half of the time your cash is back by week {half:g}; one time in ten {late}."


def to_bid_words(change: Mapping[str, Any], written: Written) -> str:
    """One single change that would turn a pass into a bid; it begins with a small letter."""
    key = change["key"]
    said = TO_BID.get(key, f"if {key} is {{to}} instead of {{was}}")
    return said.format(to=written(change["to"], key), was=written(change["from"], key))


def two_ceilings(assumption: Mapping[str, Any], written: Written, amount: Callable[[str], str]) -> str:
    """The two ceilings that an unknown freight or tax makes; blank where it is known or moves nothing."""
    low, high = assumption.get("ceiling_low"), assumption.get("ceiling_high")
    key = assumption["key"]
    if key not in UNKNOWN or assumption["source"] != "assumed" or not (low and high) or low == high:
        return ""
    dear, cheap = _ceiling(low, amount), _ceiling(high, amount)
    least, most = (written(assumption[end], key) for end in ("low", "high"))
    if key == "buying.tax_rate":
        free = "no tax" if not assumption["low"] else f"{least} tax"
        return f"If you pay {free}: {cheap}; with {most}: {dear}."
    return f"If freight is {least} a pallet: {cheap}; if it is {most}: {dear}."


def _ceiling(amount_text: str, amount: Callable[[str], str]) -> str:
    return amount(amount_text) if float(amount_text) else "pass"
