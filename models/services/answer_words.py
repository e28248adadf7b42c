"""What does an answer say in sentences that the page and the command line share?  Amounts arrive written."""

from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from typing import Any, Final

SMALLEST: Final = 0.005  # share; what would be rounded to nothing
Written = Callable[[Any, str], str]  # a document's value under a key, as whoever speaks writes it
UNKNOWN: Final = ("buying.freight", "buying.tax_rate")  # what a seller can ask the auction house before bidding
BROKEN: Final[Mapping[str, str]] = {
    "expected_return": "the return you ask for",
    "confidence": "how surely your cash must come back",
    "loss_limit": "your loss limit",
    "cash_limit": "your cash limit",
}
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
    "lot.pallets": "if the number of pallets is {to} instead of {was}",
    "lot.current_bid": "if the bid stands at {to} instead of {was}",
}


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


def raised_words(adds: Mapping[str, Any], amount: Callable[[str], str]) -> str:
    """What a bid above the ceiling, or above what was fixed, does to profit, return, goals and the risk of loss."""
    low, high = adds["from"], adds["to"]
    said = [_profit_words(adds, amount), _broken(adds["breaks"])]
    if low["return_on_cash"] is None:
        chance, loss = _share(high["chance_of_cash_loss"]), amount(high["expected_loss"])
        said.append(f"Cash is lost with a chance of {chance}, and the loss to expect from that is {loss}.")
    else:
        chances = _shares(low["chance_of_cash_loss"], high["chance_of_cash_loss"])
        losses = " to ".join(amount(end["expected_loss"]) for end in (low, high))
        said.append(f"The chance of losing cash goes from {chances}, and the loss to expect from {losses}.")
    return " ".join(one for one in said if one)


def _profit_words(adds: Mapping[str, Any], amount: Callable[[str], str]) -> str:
    low, high = adds["from"], adds["to"]
    asked = f"; you ask for {_share(adds['asked_return'])}."
    profit, back = amount(high["expected_profit"]), high["return_on_cash"]
    if low["return_on_cash"] is None:
        return f"Expected profit is {profit}, the return {_share(back)}{asked}"
    backs = _shares(low["return_on_cash"], back)
    return f"Expected profit falls from {amount(low['expected_profit'])} to {profit}, the return from {backs}{asked}"


def _broken(rules: Sequence[str]) -> str:
    named = [BROKEN.get(rule, rule) for rule in rules]
    if not named:
        return ""
    listed = named[0] if len(named) == 1 else f"{', '.join(named[:-1])} and {named[-1]}"
    return f"It no longer meets {listed}."


def _shares(low: float, high: float) -> str:
    """`32% to 22%`; to a tenth where both would read alike and a tenth tells them apart."""
    ends, finer = (_share(low), _share(high)), (f"{low:.1%}", f"{high:.1%}")
    return " to ".join(finer if ends[0] == ends[1] and finer[0] != finer[1] else ends)


def _share(share: float) -> str:
    """In whole percent; what is not quite nothing or not quite all is not told as that."""
    if 0 < share < SMALLEST:
        return "under 1%"
    return "over 99%" if 1 - SMALLEST < share < 1 else f"{share:.0%}"


def fixed_costs_words(document: Mapping[str, Any], amount: Callable[[str], str]) -> str:
    """Why no bid at all can pay: freight and fees alone are more than the goods bring; blank where they are not."""
    held = {one["key"]: one["value"] for one in document.get("assumptions", ())}
    brings = document.get("cash_proceeds", {}).get("mean")
    if brings is None or "buying.freight" not in held:
        return ""
    freight = Decimal(str(held["buying.freight"])) * Decimal(str(held.get("lot.pallets") or 1))
    costs = freight + Decimal(str(held.get("buying.other_fees") or 0))
    if costs < Decimal(brings):
        return ""
    told = costs.quantize(Decimal(brings))  # the currency's digits, whatever pallets are written like
    return (
        f"Costs alone exceed what it brings: freight and fees are {amount(f'{told:f}')}, and after selling costs the"
        f" goods are expected to bring {amount(brings)}."
    )


def backlog_words(backlog: Mapping[str, Any]) -> str:
    """That a backlog never clears, and whether that is this lot's doing; blank where it clears."""
    before, after = backlog.get("before") or {}, backlog.get("after") or {}
    if "weeks_to_clear" not in after or after["weeks_to_clear"] is not None:
        return ""
    grows = f"it grows by {after['grows_hours_per_week']:.1f} hours a week"
    if before.get("weeks_to_clear") is None:
        return f"Your backlog never clears, with or without this lot: {grows}."
    return f"With this lot your backlog never clears: {grows}."


def steps_words(ceiling: Mapping[str, Any], standing: str | None, amount: Callable[[str], str]) -> str:
    """What is left above the bid that stands; blank where none is known, or on pass."""
    left = ceiling.get("steps_left")
    if ceiling.get("verdict") != "bid" or not left or standing is None:
        return ""
    if not left["steps"]:
        reached = Decimal(standing) >= Decimal(ceiling["amount"])
        already = "The bid already stands at your ceiling" if reached else "The next bid step is above your ceiling"
        return f"{already}: bid no more, unless the bid that stands is yours."
    count = "1 bid step is" if left["steps"] == 1 else f"{left['steps']:,} bid steps are"
    return (
        f"{count} left above the bid that stands; the next one adds {amount(left['next_step_cash'])} to what you pay."
    )
