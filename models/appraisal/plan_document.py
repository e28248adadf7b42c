"""A bid plan in the contract's form: which lots at most at what, what they do together, what is left out and why."""

import datetime as dt
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from typing import Any

from models.appraisal.plan_lots import LotRead, PlanTerms
from models.appraisal.plan_words import reason_of, reason_to_pass
from models.appraisal.written import money
from models.decide.plan import Plan, PlanFigures
from models.values.money import in_words
from models.values.problems import Caution

DIGITS = 6


def plan_document(lots: Sequence[LotRead], biddable: Sequence[LotRead], plan: Plan, terms: PlanTerms) -> dict[str, Any]:
    """The plan; money as decimal strings, shares 0..1."""
    currency = terms.currency
    chosen = sorted((biddable[at] for at in plan.chosen), key=_closing)
    passed = [one for one in lots if one.amount <= 0]
    left = [_left(biddable[one.lot], *reason_of(one, biddable[one.lot], plan, terms)) for one in plan.left_out]
    return {
        "lots": [_lot(one) for one in chosen],
        "gap": money(plan.gap, currency),
        "limits": {"cash": money(terms.cash, currency), "hours": terms.hours},
        "totals": _totals(plan.figures, terms),
        "cash_proceeds": {name: money(at, currency) for name, at in asdict(plan.figures.cash_proceeds).items()},
        "spread": {
            "together": money(plan.figures.sd, currency),
            "if_unrelated": money(plan.figures.sd_apart, currency),
        },
        "goals": _goals(plan.figures, terms),
        "left_out": [*left, *(_left(one, "pass", reason_to_pass(one)) for one in passed)],
        "cautions": [{"what": one.what, "check": one.check} for one in _cautions(chosen, plan, currency)],
    }


def _closing(one: LotRead) -> tuple[str, float]:
    """What closes first comes first, an unknown close last; then what earns most."""
    return _closes_at(one) or "unknown", -one.figures.expected_profit


def _closes_at(one: LotRead) -> str | None:
    closes = one.settings.lot.closes_at
    return None if closes is None else closes.astimezone(dt.UTC).isoformat().replace("+00:00", "Z")


def _lot(one: LotRead) -> dict[str, Any]:
    """At its amount, as its own evaluation tells it."""
    at, currency = one.figures, one.settings.currency
    return {
        "id": one.id,
        "name": one.name,
        "amount": money(one.amount, currency),
        "cash_out": money(at.cash_out, currency),
        "expected_profit": money(at.expected_profit, currency),
        "hours": one.hours,
        "chance_of_cash_loss": round(at.chance_of_cash_loss, DIGITS),
        "is_fixed": one.fixed is not None,
        "closes_at": _closes_at(one),
    }


def _left(one: LotRead, reason: str, words: str) -> dict[str, Any]:
    amount = money(one.amount, one.settings.currency)
    return {"id": one.id, "name": one.name, "amount": amount, "reason": reason, "words": words}


def _totals(at: PlanFigures, terms: PlanTerms) -> dict[str, Any]:
    back = at.return_on_cash
    return {
        "cash_out": money(at.cash_out, terms.currency),
        "cash_left": money(terms.cash - at.cash_out, terms.currency),
        "hours": round(at.hours, 4),
        "expected_profit": money(at.expected_profit, terms.currency),
        "expected_cash_gain": money(at.expected_cash_gain, terms.currency),
        "chance_of_cash_loss": round(at.chance_of_cash_loss, DIGITS),
        "chance_below_pay": round(at.chance_below_pay, DIGITS),
        "return_on_cash": None if back is None else round(back, DIGITS),
    }


def _goals(at: PlanFigures, terms: PlanTerms) -> dict[str, Any]:
    """What the sum must meet, and what it does."""
    goals, currency = terms.goals, terms.currency
    loss = None
    if goals.loss_limit is not None and at.worst_loss is not None:
        loss = {"limit": money(goals.loss_limit, currency), "chance": goals.loss_chance,
                "loss": money(at.worst_loss, currency)}  # fmt: skip
    return {"confidence": {"asked": goals.confidence, "cash": money(at.sure_cash, currency)}, "loss_limit": loss}


def _cautions(chosen: Sequence[LotRead], plan: Plan, currency: str) -> Iterator[Caution]:
    if plan.gap > 0:
        yield Caution(
            f"Not every choice of so many lots was tried: another may earn up to {in_words(plan.gap, currency)} more.",
            "Leave out lots that you would not bid for anyway.",
        )
    if len(chosen) > 1:
        yield Caution(
            "Each lot is valued as if it alone came next in your backlog. Won together they wait for each other, so the"
            " later ones sell later than is counted here.",
            "After each lot won, raise the units waiting in your settings and value the others again.",
        )
        yield Caution(
            "The totals hold if you win every lot of the plan at its ceiling.",
            "When a lot is lost, or won for less, plan again with the cash that is left.",
        )
    for count in Counter(one.twin for one in chosen).values():
        if count > 1:
            yield Caution(
                f"{count} lots of the plan have the same manifest, so they count as turning out exactly alike, which"
                " real lots do not.",
                "Check that it is not one lot uploaded twice.",
            )
