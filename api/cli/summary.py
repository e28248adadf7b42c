"""What does an evaluation say, in words a seller uses?  Wording only: every figure comes from the evaluation."""

import textwrap
from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from api.cli.caution_lines import WIDTH, own_caution_lines
from api.cli.decision_lines import decision_parts
from models.services.answer_words import backlog_words, fixed_costs_words
from models.services.pace_words import minutes_words, pace_words
from models.values.cautions import FEW_SALES

RULES = {
    "expected_return": "the return you ask for",
    "confidence": "how surely your cash must come back",
    "loss_limit": "your loss limit",
    "cash_limit": "your cash limit",
}
MARGIN = 16


def summary(document: Mapping[str, Any]) -> list[str]:
    """Lines of text: ceiling, why, hours, backlog, and the cautions of this lot."""
    said = [_heading(document)]
    for name, text in _parts(document):
        said += textwrap.wrap(
            text,
            WIDTH,
            initial_indent=f"  {name:<{MARGIN - 2}}",
            subsequent_indent=" " * MARGIN,
            break_long_words=False,
        )
    return [*said, *own_caution_lines(document), ""]


def _heading(document: Mapping[str, Any]) -> str:
    lot = document["lot"]
    problems = document.get("problems", {})
    aside = f", {problems['set_aside']:,} rows set aside" if problems.get("set_aside") else ""
    return f"{lot['name']}: {lot['lines']:,} lines, {lot['units']:,} units{aside}"


def _parts(document: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    currency = document["lot"]["currency"]
    ceiling = document["bid_ceiling"]
    yield ("Bid ceiling", _ceiling(ceiling, currency, document["model_version"]["sales_used"]))
    yield ("Why", _why(document))
    if document.get("at_ceiling"):
        yield ("If you win", _outcome(document["at_ceiling"], currency))
    yield from decision_parts(document, lambda amount: money(amount, currency))
    resale = document["resale"]
    spread = f"{whole(resale['p10'])} to {whole(resale['p90'])}"
    yield (
        "Resale",
        f"about {whole(resale['mean'])} {currency} ({spread}) if every unit sold singly, before all costs.",
    )
    yield (
        "Rests on",
        f"{document['model_version']['sales_used']:,} own sales with a price; an estimate, not a promise.",
    )
    yield ("Hours", " ".join([_hours(document["hours"]), minutes_words(document)]).strip())
    yield ("Backlog", _backlog(document["backlog"]))
    if pace := pace_words(document):
        yield ("Your weeks", pace)


def _ceiling(ceiling: Mapping[str, Any], currency: str, sales_used: int) -> str:
    if ceiling["verdict"] == "pass":
        return "pass: do not bid on this lot."
    amount = money(ceiling["amount"], currency)
    if sales_used < FEW_SALES:
        return f"{amount}, from declared guesses: your history teaches hardly anything yet. Bid less, start small."
    return f"{amount}: bid no more than this at the hammer."


def _why(document: Mapping[str, Any]) -> str:
    ceiling, lot = document["bid_ceiling"], document["lot"]
    currency = lot["currency"]
    limits = "; ".join(
        f"{RULES.get(rule, rule)} allows {money(amount, currency)}"
        for rule, amount in ceiling["by_rule"].items()
        if amount is not None
    )
    room = ceiling["room"]
    if not room["holds"]:
        return f"{_no_room(room)} By price alone: {limits}."
    standing = lot.get("current_bid")
    if ceiling["verdict"] == "pass" and standing and Decimal(ceiling["unrounded"] or 0) > 0:
        return f"the bid already stands at {money(standing, currency)}. Of your goals, {limits}."
    if ceiling["verdict"] == "pass" and (costs := fixed_costs_words(document, lambda amount: money(amount, currency))):
        return costs
    binding = RULES.get(ceiling["binding_rule"], ceiling["binding_rule"])
    return f"{limits}. The lowest counts: {binding}."


def _no_room(room: Mapping[str, Any]) -> str:
    units, limit = room.get("unsold_units"), room.get("unsold_limit")
    if units is not None and limit is not None and units > limit:
        return f"{units:,.0f} units would wait unsold, your limit is {limit:,.0f}."
    weeks = room["weeks_to_clear"]
    taken = "would never clear" if weeks is None else f"would take {weeks:.1f} weeks to clear"
    return f"with this lot your backlog {taken}; your limit is {room['limit']:g} weeks."


def _outcome(at: Mapping[str, Any], currency: str) -> str:
    lost = at["chance_of_cash_loss"]
    return (
        f"at that price you pay {money(at['cash_out'], currency)} in all, expect "
        f"{money(at['expected_profit'], currency)} after paying your own hours, and lose cash {about_of_ten(lost)}."
    )


def about_of_ten(share: float) -> str:
    """A chance in words: about 2 times in 10."""
    return "less than 1 time in 20" if share < 0.05 else f"about {share * 10:.1f} times in 10".replace(".0 ", " ")


def _hours(hours: Mapping[str, Any]) -> str:
    means = {name: hours[name]["mean"] for name in ("listing", "sorting", "packing")}
    low, high = hours["listing"]["p10"], hours["listing"]["p90"]
    return (
        f"{fine(means['listing'])} to list ({fine(low)} to {fine(high)}), {fine(means['sorting'])} to sort and test, "
        f"{fine(means['packing'])} to pack and post: {fine(sum(means.values()))} in all."
    )


def _backlog(backlog: Mapping[str, Any]) -> str:
    before, after = backlog["before"], backlog["after"]
    if before["weeks_to_clear"] is None and after["weeks_to_clear"] is None:
        return f"{_waiting('now', before)}; {_waiting('with this lot', after)}. {backlog_words(backlog)}"
    more = backlog.get("extra_weeks")
    extra = f", {more:.1f} weeks more" if more is not None else ""
    return f"{_standing('now', before)}; {_standing('with this lot', after)}{extra}."


def _standing(when: str, side: Mapping[str, Any]) -> str:
    waiting = _waiting(when, side)
    if side["weeks_to_clear"] is None:
        return f"{waiting}, never clear: it grows by {side['grows_hours_per_week']:.1f} hours a week"
    by = f" ({side['clears_on']})" if side.get("clears_on") else ""
    return f"{waiting}, clear in {side['weeks_to_clear']:.1f} weeks{by}"


def _waiting(when: str, side: Mapping[str, Any]) -> str:
    return f"{when} {counted(side['units'], 'unit')} and {counted(side['hours'], 'hour')}"


def fine(value: float) -> str:
    """At most one decimal, the same for a sum and its parts."""
    return f"{value:,.1f}".removesuffix(".0")


def counted(value: float, word: str) -> str:
    """1 hour, 2.5 hours."""
    return f"{fine(value)} {word if fine(value) == '1' else word + 's'}"


def money(amount: str, currency: str) -> str:
    """1234.50 as 1,234.50 USD."""
    return f"{Decimal(amount):,} {currency}"


def whole(amount: str) -> str:
    """An estimate in whole major units: its cents would only pretend."""
    return f"{Decimal(amount):,.0f}"
