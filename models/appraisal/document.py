"""The whole answer in the contract's form.  What is not computed yet is absent, never faked."""

from dataclasses import asdict
from typing import Any

import numpy as np

from models.appraisal.cautions import lot_cautions
from models.appraisal.draw import Drawn
from models.appraisal.judge import HOUR_DIGITS, Decision
from models.appraisal.line_documents import money
from models.appraisal.prepare import Prepared
from models.appraisal.question import Question
from models.decide.actions import Action
from models.decide.backlog import BacklogEffect, Clearing
from models.decide.ceiling import Ceiling
from models.decide.figures import BidFigures
from models.decide.quantiles import money_spread, spread
from models.estimate.research_first import research_first
from models.values.arrays import FloatArray
from models.values.money import whole_minor
from models.values.settings import Settings


def document(question: Question, lot: Prepared, drawn: Drawn, decision: Decision) -> dict[str, Any]:
    """The evaluation without the ids, numbers and times that a store or a command adds."""
    currency = question.held.settings.currency
    at = decision.at_ceiling
    return {
        "lot": _lot(question, lot),
        "as_of": question.as_of.isoformat(),
        "seed": question.seed,
        "bid_ceiling": _ceiling(decision.ceiling, question.held.settings, decision.shade),
        "at_ceiling": None if at is None else _figures(at, currency),
        "resale": _resale(lot, currency),
        "cash_proceeds": _spread(decision.draws.cash, currency),
        "proceeds_after_pay": _spread(decision.draws.after_pay, currency),
        "hours": _hours(drawn),
        "backlog": _backlog(decision.backlog),
        "bid_curve": [{"bid": money(point.bid, currency)} | _curve(point, currency) for point in decision.curve],
        "assumptions": [asdict(one) for one in question.held.assumptions],
        "explain": _explain(lot),
        "actions": _actions(drawn),
        "research_first": _research(lot),
        "cautions": lot_cautions(question, lot, drawn, decision),
        "problems": asdict(question.problems) | {"items": [asdict(one) for one in question.problems.items]},
    }


def _lot(question: Question, lot: Prepared) -> dict[str, Any]:
    terms, currency = question.held.settings.lot, question.held.settings.currency
    closes = terms.closes_at
    return {
        "name": question.name,
        "source": terms.source,
        "currency": currency,
        "closes_at": None if closes is None else closes.isoformat().replace("+00:00", "Z"),
        "current_bid": None if terms.current_bid is None else money(terms.current_bid, currency),
        "lines": len(lot.lines),
        "units": int(lot.lines.quantity.sum()),
        "tag_total": money(float(np.nansum(lot.lines.quantity * lot.lines.tag_each)), currency),
    }


def _ceiling(ceiling: Ceiling, settings: Settings, shade: float) -> dict[str, Any]:
    currency = settings.currency
    told: dict[str, Any] = {
        "verdict": ceiling.verdict,
        "amount": money(ceiling.amount, currency),
        "unrounded": money(ceiling.unrounded, currency),
        "binding_rule": ceiling.binding_rule,
        "by_rule": {rule: None if bid is None else money(bid, currency) for rule, bid in ceiling.by_rule.items()},
        "room": asdict(ceiling.room),
        "rivals": {"count": settings.rivals_count, "shade": round(1.0 - shade, 6)},
    }
    if ceiling.steps_left is not None:
        left = ceiling.steps_left
        told["steps_left"] = {"steps": left.steps, "next_step_cash": money(left.next_step_cash, currency)}
    return told


def _figures(point: BidFigures, currency: str) -> dict[str, Any]:
    return _curve(point, currency) | {
        "expected_cash_gain": money(point.expected_cash_gain, currency),
        "profit_per_hour": None if point.profit_per_hour is None else money(point.profit_per_hour, currency),
    }


def _curve(point: BidFigures, currency: str) -> dict[str, Any]:
    back = point.return_on_cash
    return {
        "cash_out": money(point.cash_out, currency),
        "chance_of_cash_loss": round(point.chance_of_cash_loss, 6),
        "chance_below_pay": round(point.chance_below_pay, 6),
        "expected_profit": money(point.expected_profit, currency),
        "return_on_cash": None if back is None else round(back, 6),
    }


def _resale(lot: Prepared, currency: str) -> dict[str, Any]:
    """The mean is the sum of the printed line means, so that a reader can follow it."""
    each = [whole_minor(mean) if np.isfinite(mean) else 0 for mean in lot.prices.unit_price.mean.tolist()]
    resale = lot.prices.resale
    mean = float(np.dot(each, lot.lines.quantity))
    return {"mean": money(mean, currency)} | {
        name: money(getattr(resale, name), currency) for name in ("p10", "p50", "p90")
    }


def _spread(draws: FloatArray, currency: str) -> dict[str, Any]:
    return {name: money(amount, currency) for name, amount in asdict(money_spread(draws)).items()}


def _hours(drawn: Drawn) -> dict[str, Any]:
    total = drawn.components
    kinds = {"sorting": total.minutes_sorting, "listing": total.minutes_listing, "packing": total.minutes_packing}
    told = {}
    for kind, minutes in kinds.items():
        hours = spread(minutes / 60.0)
        told[kind] = {name: round(getattr(hours, name), HOUR_DIGITS) for name in ("mean", "p10", "p90")}
    return told


def _backlog(effect: BacklogEffect) -> dict[str, Any]:
    return {
        "before": _clearing(effect.before),
        "after": _clearing(effect.after),
        "extra_weeks": effect.extra_weeks,
        "peak_hours": effect.peak_hours,
        "weekly": [asdict(week) for week in effect.weekly],
    }


def _clearing(clearing: Clearing) -> dict[str, Any]:
    return asdict(clearing) | {"clears_on": None if clearing.clears_on is None else clearing.clears_on.isoformat()}


def _explain(lot: Prepared) -> dict[str, Any]:
    value = np.sort(lot.lines.quantity * np.nan_to_num(lot.prices.unit_price.mean))[::-1]
    total = float(value.sum())

    def share(count: int) -> float:
        return round(float(value[:count].sum()) / total, 4) if total > 0 else 0.0

    spread_from = [{"from": cause, "share": round(part, 4)} for cause, part in lot.prices.spread]
    return {"top3_share": share(3), "top10_share": share(10), "spread": spread_from}


def _research(lot: Prepared) -> list[dict[str, Any]]:
    found = [asdict(one) for one in research_first(lot.prices)]
    return [one | {"spread_removed": round(one["spread_removed"], 4)} for one in found]


def _actions(drawn: Drawn) -> dict[str, int]:
    words = {"listed": Action.LIST, "skipped": Action.SKIP, "never": Action.NEVER}
    return {word: int((drawn.lines.action == action).sum()) for word, action in words.items()}
