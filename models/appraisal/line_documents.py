"""One line of an evaluation in the contract's form: money as decimal strings, blanks as null."""

import hashlib
import math
from collections import defaultdict
from functools import lru_cache
from typing import Any

from models.appraisal.draw import Drawn
from models.appraisal.judge import Decision
from models.appraisal.prepare import Prepared
from models.appraisal.question import Question
from models.appraisal.slim import slim
from models.decide.actions import Action
from models.estimate.products import item_name
from models.values.conditions import name_of
from models.values.money import written
from models.values.problems import Caution


def line_documents(question: Question, lot: Prepared, drawn: Drawn, decision: Decision) -> tuple[dict[str, Any], ...]:
    """All lines, in the manifest's order."""
    cautions = _by_line((*question.cautions, *lot.prices.cautions, *lot.tempo.cautions))
    made = []
    for at in range(len(lot.lines)):
        one = _line(at, question, lot, drawn, decision)
        made.append(slim(one | {"cautions": cautions.get(one["no"], [])}))
    return tuple(sorted(made, key=lambda one: one["no"]))


def _line(at: int, question: Question, lot: Prepared, drawn: Drawn, decision: Decision) -> dict[str, Any]:
    currency = question.held.settings.currency
    lines, prices = lot.lines, lot.prices
    estimated = {
        "unit_price": {
            name: money(getattr(prices.unit_price, name)[at], currency) for name in ("mean", "p10", "p50", "p90")
        },
        "share_sold": round(float(drawn.share_sold[at]), 4),
        "days_to_sell": number(lot.days_to_sell[at], 1),
        "listing_minutes": round(float(drawn.lines.minutes_listing[at]), 2),
        "cash_proceeds": money(decision.cash_of_line[at], currency),
        "proceeds_after_pay": money(decision.after_pay_of_line[at], currency),
        "action": Action(int(drawn.lines.action[at])).name.lower(),
        "evidence": {"basis": prices.basis[at], "sales_like_it": int(prices.sales_like_it[at])},
    }
    return _facts(at, lot, currency) | estimated | _typed_in(int(lines.no[at]), question)


def _typed_in(no: int, question: Question) -> dict[str, Any]:
    """What the seller said of this line; nothing where they said nothing."""
    currency = question.held.settings.currency
    prices = [money(price, currency) for price in question.looked_up.get(no, ())]
    told: dict[str, Any] = {"looked_up_prices": prices} if prices else {}
    return told | ({"action_source": "yours"} if no in question.chosen else {})


def _facts(at: int, lot: Prepared, currency: str) -> dict[str, Any]:
    lines = lot.lines
    condition = int(lines.condition[at])
    return {
        "no": int(lines.no[at]),
        "source_row": int(lines.row[at]),
        "item": _item(item_name(lot.matched.name[at], condition)),
        "description": lines.description[at],
        "brand": lines.brand[at],
        "category": lines.category[at],
        "condition": name_of(condition),
        "quantity": int(lines.quantity[at]),
        "tag_each": money(lines.tag_each[at], currency),
        "tag_used": money(lot.prices.tag_used[at], currency),
        "sku": lines.sku[at],
        "gtin": lines.gtin[at],
    }


@lru_cache(maxsize=10_000)  # a long lot repeats its items: one text for all their lines
def _item(name: str) -> str:
    """A short name for the item: the same in every lot and on every machine."""
    return hashlib.blake2b(name.encode(), digest_size=6).hexdigest()


def money(minor: float, currency: str) -> str | None:
    """Decimal string in major units; None for what is not known."""
    return _written(float(minor), currency) if math.isfinite(minor) else None


@lru_cache(maxsize=10_000)  # lines of one item, which follow each other, share their texts
def _written(minor: float, currency: str) -> str:
    return written(minor, currency)


def number(value: float, digits: int) -> float | None:
    """A rounded number; None for what does not happen."""
    return round(float(value), digits) if math.isfinite(value) else None


def _by_line(cautions: tuple[Caution, ...]) -> dict[int, list[dict[str, Any]]]:
    found: defaultdict[int, list[dict[str, Any]]] = defaultdict(list)
    for caution in cautions:
        if caution.line is not None:
            found[caution.line].append({"what": caution.what, "check": caution.check})
    return dict(found)
