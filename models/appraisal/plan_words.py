"""Why is a lot not in the plan?  In a seller's words, beside a short code for programs."""

from collections.abc import Mapping
from typing import Final

from models.appraisal.plan_lots import LotRead, PlanTerms
from models.decide.plan import LeftOut, Plan
from models.values.money import in_words

_RULES: Final[Mapping[str, str]] = {
    "expected_return": "the return you ask for",
    "confidence": "how surely the cash must come back",
    "loss_limit": "your loss limit",
    "cash_limit": "your cash limit for one lot",
}


def reason_of(left: LeftOut, lot: LotRead, plan: Plan, terms: PlanTerms) -> tuple[str, str]:
    """Code and sentence for a lot that could be bid for, but not within the plan."""
    swap = "and no exchange for another lot earns more" if plan.gap == 0 else "and no better exchange was found"
    over = "" if left.over is None else in_words(left.over, terms.currency)
    hours = 0.0 if left.over is None else round(left.over, 1)
    due, needs = in_words(lot.figures.cash_out, terms.currency), round(lot.hours, 1)
    goals, currency = terms.goals, terms.currency
    words = {
        "cash alone": f"Alone it takes {due} in cash, {over} more than there is.",
        "hours alone": f"Alone it takes {needs} hours of listing, {hours} more than there are.",
        "no profit": "At the most you may bid for it, it is not expected to leave a profit after pay.",
        "cash": f"Beside the others it would take {over} more cash than there is, {swap}.",
        "hours": f"Beside the others it would take {hours} more hours of listing than there are, {swap}.",
        "confidence": f"With it, the cash of all lots together comes back less surely than {goals.confidence:.0%},"
        f" {swap}.",
        "loss limit": f"With it, the chance of losing more than {in_words(goals.loss_limit or 0.0, currency)} in cash"
        f" on all lots together passes {goals.loss_chance:.0%}, {swap}.",
    }
    return left.hindrance.replace(" ", "_"), words[left.hindrance]


def reason_to_pass(lot: LotRead) -> str:
    """Sentence for a lot that nothing should be bid for at all."""
    ceiling, currency, stands = lot.ceiling, lot.settings.currency, lot.settings.lot.current_bid
    if not ceiling.room.holds:
        return "Your backlog has no room for it."
    most = lot.fixed if lot.fixed is not None else ceiling.unrounded
    if stands is not None and stands > most:
        who = "the most that you fixed" if lot.fixed is not None else "the most that meets its goals"
        return f"The bid stands at {in_words(stands, currency)}; {who} is {in_words(most, currency)}."
    return f"No bid meets all its goals. What stands in the way is {_RULES[ceiling.binding_rule]}."
